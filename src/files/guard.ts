/** A text that another program might run as a formula goes out with an apostrophe before it, which is taken away again on the way in. */

/**
 * First letters that make some program run what follows, and their full-width forms, also behind blanks, control characters and marks that nobody
 * sees, which such programs pass over; and the guard itself.
 */
const RUNS = /^(?:[\t\r\n\0']|[\s\p{Cc}\p{Cf}]*[=+\-@＝＋－＠])/u;

export const guard = (text: string): string => (RUNS.test(text) ? `'${text}` : text);
export const unguard = (text: string): string => (text.startsWith("'") ? text.slice(1) : text);
