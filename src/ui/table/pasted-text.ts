/** What another program put on the clipboard: text with tabs taken apart, and which mark its numbers have before their decimals. */

/** Tabs part the cells of a row, line breaks the rows; a cell in double quotes may hold either, and doubles its own quotes. */
export function gridOf(text: string): readonly (readonly string[])[] {
  const rows: string[][] = [[]];
  const body = text.replace(/\r\n?/g, '\n').replace(/\n+$/, '');
  let at = 0;
  for (;;) {
    const quoted = /"((?:[^"]|"")*)"(?=[\t\n]|$)/y;
    quoted.lastIndex = at;
    const match = quoted.exec(body);
    const plain = /[^\t\n]*/y;
    plain.lastIndex = at;
    const found = match?.[0] ?? plain.exec(body)?.[0] ?? '';
    rows.at(-1)?.push((match ? (match[1] ?? '').replaceAll('""', '"') : found).trim());
    at += found.length;
    if (at >= body.length) return rows;
    if (body[at] === '\n') rows.push([]);
    at++;
  }
}

export type DecimalMark = '.' | ',';

/** What a number shows of its marks: `33,3` and `1.234,5` have a comma before their decimals, `1,234.5` a point; `1,234` may be either. */
function markIn(text: string): DecimalMark | undefined {
  const number = /\d[\d.,]*\d/.exec(text)?.[0];
  if (number === undefined) return undefined;
  const last = Math.max(number.lastIndexOf('.'), number.lastIndexOf(','));
  const mark = number[last];
  if (mark !== '.' && mark !== ',') return undefined;
  const other = mark === ',' ? '.' : ',';
  const once = number.indexOf(mark) === last;
  if (number.includes(other)) return once ? mark : undefined;
  // The same mark several times parts thousands, and so does, perhaps, one before just three digits.
  if (!once) return other;
  return number.length - last - 1 === 3 && last <= 3 && !number.startsWith('0') ? undefined : mark;
}

/** The decimal mark of a whole block: what its numbers agree on; undefined where they say nothing, or contradict one another. */
export function decimalMarkOf(grid: readonly (readonly string[])[]): DecimalMark | undefined {
  const marks = new Set<DecimalMark>();
  for (const text of grid.flat()) {
    const mark = text.startsWith('=') ? undefined : markIn(text);
    if (mark) marks.add(mark);
  }
  return marks.size === 1 ? [...marks][0] : undefined;
}

/** The same text with its thousands closed up, where the decimal mark is known: `1.234` is 1234 among numbers with a decimal comma. */
export function withoutThousands(text: string, decimalMark: DecimalMark): string {
  const part = decimalMark === ',' ? '\\.' : ',';
  return text.replace(new RegExp(`(?<![\\d.,])\\d{1,3}(?:${part}\\d{3})+(?![\\d.,]*${part}|\\d)`, 'g'), (number) =>
    number.replaceAll(decimalMark === ',' ? '.' : ',', ''),
  );
}
