/** Numbers as people write them in a mail, in figures or words: `1,20`, `14 500`, `2 1/2`, `½`, `twelve`, `a dozen`, `one and a half`. */

export interface Numeral {
  readonly from: number;
  readonly to: number;
  /** Two where both could be meant: `1,200` where nothing says how the client's place writes numbers. */
  readonly values: readonly number[];
  /** In words: `one` may be no number at all. */
  readonly inWords: boolean;
  /** The unit stood between the digits: `1m20`. */
  readonly unit?: 'm';
}

/** How numbers are written where the client is, as far as the text shows it. */
export type Marks = 'point' | 'comma' | undefined;

const ONES = 'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(' ');
const TENS = 'twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');
const WORDS = new Map<string, number>([
  ...ONES.map((word, n) => [word, n] as const),
  ...TENS.map((word, n) => [word, 20 + 10 * n] as const),
  ['fourty', 40],
  ['single', 1],
  ['hundred', 100],
  ['thousand', 1000],
  ['dozen', 12],
  ['couple', 2],
  ['pair', 2],
  ['half', 0.5],
  ['quarter', 0.25],
]);
const MULTIPLIES = new Set(['hundred', 'thousand', 'dozen', 'couple', 'pair']);
const SHARES = new Set(['half', 'quarter']);

const FRACTIONS: Readonly<Record<string, number>> = {
  '½': 1 / 2,
  '¼': 1 / 4,
  '¾': 3 / 4,
  '⅓': 1 / 3,
  '⅔': 2 / 3,
  '⅛': 1 / 8,
  '⅜': 3 / 8,
  '⅝': 5 / 8,
  '⅞': 7 / 8,
};
const ANY_FRACTION = Object.keys(FRACTIONS).join('');

/** `a foot`, `an inch`, `half a metre`: the article counts where a measure follows. */
const ONE_OF =
  '(?<=(?:[,;(]|and|by|x) )(?:foot|yard|metre|meter)(?= and a half)|an? (?=yards?|foot|feet|met(?:er|re)|inch|half|quarter|dozen|couple|pair|hundred)';
const BEGINS = new RegExp(`(?<![\\p{L}\\d])(?:${ONE_OF}|(?:${[...WORDS.keys()].join('|')})(?![\\p{L}]))|[\\d${ANY_FRACTION}]`, 'gu');
const WORD = new RegExp(`(${[...WORDS.keys()].join('|')})(?!\\p{L})`, 'yu');
const DIGITS = /\d{1,15}(?:[.,]\d{1,12}|'\d{3}(?![\d"])){0,6}/uy;
/** Gaps between thousands, where what follows or the noughts show that it is one number: `14 500 lux`, `10 000`. */
const SPACED = /\d{1,3}(?:(?: \d{3}){1,3}(?=[.,]\d{1,2} ?(?:€|eur)| ?(?:k?lux|lx|mm|€|eur|usd|chf|kr)(?!\p{L}))| 000(?! ?\d))/uy;
const FRACTION = new RegExp(`[ -]{0,1}(?:([${ANY_FRACTION}])|(?:(?<=\\d)[ -])(\\d{1,2})/(2|3|4|8|16|32|64)(?!\\d))`, 'yu');
const BARE_FRACTION = /(\d{1,2})\/(2|3|4|8|16|32|64)(?![\d/])/uy;
const METRES = /(\d{1,2}) ?m(?: (?=\d\d (?:long|wide|deep|high|by|x)))?(\d\d)(?![\d.,]*\d)(?!\p{L})/uy;
const AND_HALF = /,? and an? (half|quarter)(?!\p{L})/uy;

const at = (pattern: RegExp, text: string, place: number): RegExpExecArray | null => {
  pattern.lastIndex = place;
  return pattern.exec(text);
};

/** `2.5` or `1,20` somewhere shows what a mark means elsewhere; feet, dollars and pounds are written with a point. */
export function marksOf(text: string): Marks {
  const point = /(?<![\d.,])(?:\d{1,6}\.\d{1,2}|\d{1,3},\d{3}\.\d{1,3}|0\.\d{1,6})(?![\d.,]*\d)/u.test(text);
  const comma = /(?<![\d.,])(?:\d{1,6},\d{1,2}|\d{1,3}\.\d{3},\d{1,3}|0,\d{1,6})(?![\d.,]*\d)/u.test(text);
  if (point !== comma) return point ? 'point' : 'comma';
  return !point && /[$£]|\d ?(?:ft|feet|foot|inch(?:es)?|in|")(?!\p{L})/u.test(text) ? 'point' : undefined;
}

/** What digits with marks may mean; empty where they are no number, such as a date. */
function readings(digits: string, marks: Marks): readonly number[] {
  const text = digits.replace(/ /gu, '');
  if (/^\d+$/u.test(text)) return [Number(text)];
  const used = [...new Set(text.replace(/\d/gu, ''))];
  const parts = text.split(/[.,'’]/u);
  const grouped = parts.slice(1).every((part) => part.length === 3) && /^[1-9]\d{0,2}$/u.test(parts[0] ?? '');
  const [mark = ''] = used;
  if (used.length === 1) {
    if (parts.length > 2) return grouped ? [Number(parts.join(''))] : [];
    const [whole = '', fraction = ''] = parts;
    const decimal = Number(`${whole}.${fraction}`);
    if (mark === "'" || mark === '’') return grouped ? [Number(parts.join(''))] : [];
    if (!grouped) return [decimal];
    const usual = mark === '.' ? 'point' : 'comma';
    if (marks === undefined) return [Number(whole + fraction), decimal];
    return [marks === usual ? decimal : Number(whole + fraction)];
  }
  const last = Math.max(text.lastIndexOf('.'), text.lastIndexOf(','));
  const whole = text.slice(0, last);
  const groups = whole.split(/[.,'’]/u);
  const sound = used.length === 2 && text.lastIndexOf(text.charAt(last), last - 1) < 0 && groups.slice(1).every((part) => part.length === 3);
  return sound ? [Number(`${groups.join('')}.${text.slice(last + 1)}`)] : [];
}

function inFigures(text: string, from: number, marks: Marks): Numeral | undefined {
  const metres = at(METRES, text, from);
  if (metres) return { from, to: from + metres[0].length, values: [Number(`${metres[1]}.${metres[2]}`)], inWords: false, unit: 'm' };
  const bare = at(BARE_FRACTION, text, from);
  if (bare && Number(bare[1]) < Number(bare[2])) return { from, to: from + bare[0].length, values: [Number(bare[1]) / Number(bare[2])], inWords: false };
  const digits = (at(SPACED, text, from) ?? at(DIGITS, text, from))?.[0];
  if (digits === undefined) {
    const share = FRACTIONS[text.charAt(from)];
    return share === undefined ? undefined : { from, to: from + 1, values: [share], inWords: false };
  }
  let values = readings(digits, marks);
  let to = from + digits.length;
  if (text.charAt(from - 1) === '.' && !/[\p{L}\d]/u.test(text.charAt(from - 2)))
    return { from: from - 1, to, values: [Number(`0.${digits}`)], inWords: false };
  if (values.length === 1 && /^\d+$/u.test(digits)) {
    const more = at(FRACTION, text, to) ?? at(AND_HALF, text, to);
    const share = more?.[2] === undefined ? (FRACTIONS[more?.[1] ?? ''] ?? WORDS.get(more?.[1] ?? '')) : Number(more[2]) / Number(more[3]);
    if (more && share !== undefined && share < 1) {
      values = values.map((value) => value + share);
      to += more[0].length;
    }
  }
  if (values.length > 0 && /^k(?= ?(?:lux|lx)(?!\p{L}))/u.test(text.slice(to, to + 6)))
    return { from, to: to + 1, values: values.map((value) => value * 1000), inWords: false };
  return { from, to, values, inWords: false };
}

/** `twenty-four`, `a hundred and twenty`, `two dozen`, `half a metre`, `one and a half`. */
function inNumberWords(text: string, from: number): Numeral | undefined {
  const article = /^an? /u.exec(text.slice(from, from + 3))?.[0] ?? '';
  let place = from + article.length;
  let [total, last, first] = [0, Number.POSITIVE_INFINITY, true];
  for (let n = 0; n < 6; n++) {
    const joint = first ? '' : (/^(?:[ -]| and )(?=\p{L})/u.exec(text.slice(place, place + 6))?.[0] ?? undefined);
    const word = joint === undefined ? undefined : at(WORD, text, place + joint.length)?.[1];
    const value = word === undefined ? undefined : WORDS.get(word);
    if (joint === undefined || word === undefined || value === undefined) break;
    if (MULTIPLIES.has(word)) total = (first || total === 0 ? 1 : total) * value;
    else if (SHARES.has(word) && !first) break;
    else if (!first && !(value < last && last >= 20)) break;
    else total += value;
    last = MULTIPLIES.has(word) && value >= 100 ? 100 : value;
    first = false;
    place += joint.length + word.length;
    if (SHARES.has(word)) {
      // `half a metre`, `half an hour`, `half of`: the article is part of the number.
      const rest = /^ an? /u.exec(text.slice(place, place + 4))?.[0].trimEnd();
      return { from, to: place + (rest?.length ?? 0), values: [total], inWords: true };
    }
  }
  if (first && article === '' && / and a half/u.test(text.slice(from, from + 17))) return { from, to: from, values: [1], inWords: true };
  if (first) return article === '' ? undefined : { from, to: from + article.length - 1, values: [1], inWords: true };
  const half = at(AND_HALF, text, place);
  if (half) return { from, to: place + half[0].length, values: [total + (WORDS.get(half[1] ?? '') ?? 0)], inWords: true };
  return { from, to: place, values: [total], inWords: true };
}

/** All numbers of a plain text, in their order; those that are part of a name (`T5`, `IP65`) are none. */
export function numerals(text: string, marks: Marks): readonly Numeral[] {
  const found: Numeral[] = [];
  let done = 0;
  BEGINS.lastIndex = 0;
  for (let hit = BEGINS.exec(text); hit; hit = BEGINS.exec(text)) {
    const from = hit.index;
    const figure = /^[\d½¼¾⅓⅔⅛⅜⅝⅞]/u.test(hit[0]);
    if (from < done) continue;
    const part =
      figure && /\p{L}/u.test(text.charAt(from - 1)) && !/(?:^|[^\p{L}])(?:x|us|eur|chf|gbp|usd|cad|aud|nzd)$/u.test(text.slice(Math.max(0, from - 5), from));
    const numeral = figure ? inFigures(text, from, marks) : inNumberWords(text, from);
    done = numeral ? numeral.to : from + 1;
    BEGINS.lastIndex = Math.max(done, from + 1);
    if (numeral && !part && numeral.values.length > 0 && numeral.values.every(Number.isFinite)) found.push(numeral);
  }
  return found;
}
