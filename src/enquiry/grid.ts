/** Readings of a meter that stand in a row or a grid: lines of numbers, numbers between strokes, or several in one sentence. */
import { type Marks, numerals } from './numbers.ts';
import { overlaps, sentences } from './sentences.ts';

export interface Grid {
  readonly from: number;
  readonly to: number;
  /** Line by line; null where a place was left out. */
  readonly rows: readonly (readonly (number | null)[])[];
  /** `lx`, `fc`, `µmol/m²/s`, or nothing where the text does not say. */
  readonly unit: string;
}

const CELL = "(?:\\d{1,3}(?:[ ']\\d{3})|\\d{1,6}(?:[.,]\\d{1,3})?|-{1,2}|x|\\?|n\\/?a|\\.)";
const LINE = new RegExp(
  `^[ \\t>*•|]*(?:\\p{L}[\\p{L} ]{0,12}\\d{0,2} ?[:)|-]? *)?((?:${CELL})(?:[ \\t]*[,;/|\\t ][ \\t|]*(?:${CELL})){2,59})[ \\t|.]*(?:(?:lux|lx|fc|µmol\\S*|umol\\S*|ppfd|foot-?candles?)[ .]*)?$`,
  'u',
);
const STROKES =
  /(?<![\d.,])(?:\d{1,3}(?:[ ']\d{3})|\d{1,6}(?:[.,]\d{1,2})?)(?: ?[/|;] ?(?:\d{1,3}(?:[ ']\d{3})|\d{1,6}(?:[.,]\d{1,2})?|-|x)){2,59}(?![\d.,]*\d)/gu;

const LISTED = /(?<![\d.,])\d{2,6}(?:\.\d)?(?:(?:, ?(?:and )?| and )\d{2,6}(?:\.\d)?){2,59}(?![\d.,]*\d)/gu;

const METER = /measur|meter|reading|read(?!y)|lux|foot-?candle|µmol|umol|ppfd|quantum|(?<!\p{L})fc(?!\p{L})/u;
const UNIT =
  /(k ?lux|klx|lux|lx)(?!\p{L})|(foot-? ?candles?|footcandles?|ft-?candles?|(?<!\p{L})fc(?!\p{L}))|((?:µ|u|micro-?)mol(?!\p{L}*\/[sj](?!\p{L}))|ppfd|quantum)/gu;

function unitNear(text: string, from: number, to: number): { readonly unit: string; readonly times: number } {
  const [start, end] = [Math.max(0, from - 240), Math.min(text.length, to + 40)];
  let best: { unit: string; times: number; far: number } = { unit: '', times: 1, far: 1e9 };
  for (const hit of text.slice(start, end).matchAll(UNIT)) {
    const place = start + hit.index;
    // What stands before counts; behind it, what closes the same line.
    const near = place >= to && !/[\n.?]/u.test(text.slice(to, place));
    const far = place >= to ? (near ? (place - to) / 4 : 1e8) : from - place;
    const doubted = UNIT_DOUBTED.test(text.slice(place + hit[0].length, place + hit[0].length + 14));
    if (far >= 0 && far < best.far)
      best = { unit: doubted ? '' : hit[1] ? 'lx' : hit[2] ? 'fc' : 'µmol/m²/s', times: !doubted && /^k/u.test(hit[1] ?? '') ? 1000 : 1, far };
  }
  return best;
}

/** `lux I guess?`: what the meter shows is to be asked. */
const UNIT_DOUBTED = /^[ ,]{0,2}(?:i (?:guess|think|suppose|believe)|maybe|perhaps)(?!\p{L})/u;

const cellOf = (cell: string): number | null => (/\d/u.test(cell) ? Number(cell.replace(/[ ']/gu, '').replace(',', '.')) : null);

function cellsOf(line: string): readonly (number | null)[] {
  const parted = /[;|\t]/u.test(line)
    ? line.split(/[;|\t]/u)
    : /\//u.test(line)
      ? line.split('/')
      : /,\s/u.test(line)
        ? line.split(/,\s+(?:and )?|\s+and\s+/u)
        : line.split(/ +|(?<=\d),(?=\d{2,})/u);
  return parted
    .map((cell) => cell.trim())
    .filter((cell) => cell !== '')
    .map(cellOf);
}

/** Lines of at least three cells, two of them one under the other, or one that says what it is. */
export function grids(text: string, marks: Marks): readonly Grid[] {
  const found: Grid[] = [];
  const add = (from: number, to: number, rows: readonly (readonly (number | null)[])[]): void => {
    const { unit, times } = unitNear(text, from, to);
    const scaled = times === 1 ? rows : rows.map((row) => row.map((cell) => cell && cell * times));
    found.push({ from, to, rows: scaled, unit });
  };
  let lines: { readonly from: number; readonly to: number; readonly cells: readonly (number | null)[] }[] = [];
  const flush = (): void => {
    const [first, last] = [lines[0], lines.at(-1)];
    if (
      first &&
      last &&
      METER.test(text.slice(Math.max(0, first.from - 240), last.to + 60)) &&
      lines.every(({ cells }) => cells.some((cell) => cell !== null))
    ) {
      const width = Math.max(...lines.map(({ cells }) => cells.length));
      add(
        first.from,
        last.to,
        lines.map(({ cells }) => [...cells, ...Array<null>(width - cells.length).fill(null)]),
      );
    }
    lines = [];
  };
  let place = 0;
  for (const line of text.split('\n')) {
    const match = line.length <= 600 ? LINE.exec(line) : null;
    const body = match?.[1];
    if (match && body !== undefined) {
      const from = place + line.indexOf(body, match[0].indexOf(body));
      lines.push({ from, to: from + body.length, cells: cellsOf(body) });
    } else if (line.trim() !== '') flush();
    place += line.length + 1;
  }
  flush();
  const isKnown = overlaps([...found]);
  const rowsOf: Grid[] = [];
  for (const hit of [...text.matchAll(STROKES), ...text.matchAll(LISTED)].sort((a, b) => a.index - b.index)) {
    const [from, to] = [hit.index, hit.index + hit[0].length];
    if (isKnown({ from, to })) continue;
    const rows = [cellsOf(hit[0])];
    const last = rowsOf.at(-1);
    if (rows.flat().length < 3 || !METER.test(text.slice(Math.max(0, from - 160), to + 40)) || (last && from < last.to)) continue;
    // Rows one after the other in one sentence: `210, 240, 235 in front, 190, 220, 215 behind`.
    if (last && from - last.to <= 40 && last.rows[0]?.length === rows[0]?.length && !/\n\s*\n/u.test(text.slice(last.to, from)))
      rowsOf.splice(-1, 1, { ...last, to, rows: [...last.rows, ...rows] });
    else rowsOf.push({ from, to, rows, unit: '' });
  }
  for (const { from, to, rows } of rowsOf) add(from, to, rows);
  return [
    ...found,
    ...inSentences(
      text,
      marks,
      [...found].sort((a, b) => a.from - b.from),
    ),
  ].sort((a, b) => a.from - b.from);
}

const SAYS = /(?:i|we) (?:get|got|read|have|measured?)|reads?|readings?|measured?|meter/u;
const PLACES = /middle|centre|center|left|right|edge|corner|end|front|back|under|between/u;

/** `Under the middle I get 900, at the left end 520, right end 560`: three numbers or more, each with the place where it was read. */
function inSentences(text: string, marks: Marks, known: readonly Grid[]): readonly Grid[] {
  const found: Grid[] = [];
  const isKnown = overlaps(known);
  for (const { from, to: end } of sentences(text)) {
    const sentence = text.slice(from, end);
    if (!SAYS.test(sentence) || !PLACES.test(sentence)) continue;
    const all = numerals(sentence, marks).filter(
      ({ inWords, to }) => !inWords && !/^ ?(?:cm|mm|m|ft|feet|in|inch|"|'|h|hours?|w|watts?|v|%|°|x)(?!\p{L})/u.test(sentence.slice(to, to + 8)),
    );
    const read = all.filter(({ values }) => values.length === 1 && (values[0] ?? 0) >= 10);
    const [first, last] = [read[0], read.at(-1)];
    if (!first || !last || read.length < 3 || isKnown({ from: from + first.from, to: from + last.to })) continue;
    const { unit, times } = unitNear(text, from + first.from, from + last.to);
    if (unit !== '') found.push({ from: from + first.from, to: from + last.to, rows: [read.map(({ values }) => (values[0] ?? 0) * times)], unit });
  }
  return found;
}
