/** Which keys a command goes by. */
const held = (event: KeyboardEvent): boolean => (event.ctrlKey || event.metaKey) && !event.altKey;

/** Control, or Command, with a letter, whether or not Shift is held. */
export const control = (event: KeyboardEvent, letter: string): boolean => held(event) && event.key.toLowerCase() === letter;
export const controlAlone = (event: KeyboardEvent, letter: string): boolean => control(event, letter) && !event.shiftKey;
export const controlShift = (event: KeyboardEvent, letter: string): boolean => control(event, letter) && event.shiftKey;
