/**
 * The text in which a reading searches: lower case, with plain quotes, dashes and spaces, and without the marks of a mail's HTML. It is exactly as long as
 * what came in, so that a place in one is the same place in the other.
 */

/** Characters that are read, in UTF-16 units: a mail of any length is kept within bounds, and what lies beyond is said to be unread. */
export const MOST_READ = 1_000_000;

const TAG =
  /<!--[^<>]{0,2000}-->|<\/?(?:a|abbr|b|big|blockquote|body|br|center|code|div|em|font|h[1-6]|head|hr|html|i|img|label|li|link|meta|o:p|ol|p|pre|s|small|span|strong|sub|sup|table|tbody|td|tfoot|th|thead|title|tr|tt|u|ul|wbr|!doctype)(?:[\s/][^<>]{0,2000})?>/giu;
/** Tags after which another line or another cell of a grid begins. */
const BREAKS = /^<\/?(?:blockquote|br|center|div|h[1-6]|hr|li|ol|p|pre|table|tr|ul)\b/iu;
const CELLS = /^<t[dh]\b/iu;

const ENTITY = /&(?:#(\d{1,6})|#x([0-9a-f]{1,5})|([a-z]{2,6}\d{0,2}));/giu;
const ENTITIES: Readonly<Record<string, string>> = {
  nbsp: ' ',
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  times: 'x',
  deg: '°',
  micro: 'µ',
  sup2: '²',
  frac12: '½',
  frac14: '¼',
  frac34: '¾',
  euro: '€',
  pound: '£',
  ndash: '-',
  mdash: '-',
  rsquo: "'",
  lsquo: "'",
  rdquo: '"',
  ldquo: '"',
  prime: "'",
  middot: '·',
  hellip: ' ',
};
/** They belong to what comes after them: `&micro;mol`. All others to what came before. */
const LEADING = new Set(['µ', '€', '£', '$']);

const OTHERS: Readonly<Record<string, string>> = {
  '‘': "'",
  '’': "'",
  '‚': "'",
  '′': "'",
  '`': "'",
  '´': "'",
  '“': '"',
  '”': '"',
  '„': '"',
  '″': '"',
  '«': '"',
  '»': '"',
  '–': '-',
  '—': '-',
  '−': '-',
  '‒': '-',
  '‐': '-',
  '‑': '-',
  '×': 'x',
  '✕': 'x',
  '✖': 'x',
  μ: 'µ',
  º: '°',
  '⁄': '/',
  '∕': '/',
  '…': ' ',
  '，': ',',
  '．': '.',
  '：': ':',
  '＝': '=',
  '％': '%',
  '＄': '$',
};

/** Controls, marks of writing direction and of no width: nothing of them is seen. Lines stay. */
const UNSEEN = /[\p{Cc}\p{Cf}\p{Zs}\p{Zl}\p{Zp}\p{Cs}]/u;

const plainChar = new Map<string, string>();

function toPlain(char: string): string {
  const known = plainChar.get(char);
  if (known !== undefined) return known;
  const other = OTHERS[char];
  const wide = /[０-９]/u.test(char) ? String(char.charCodeAt(0) - 0xff10) : undefined;
  const lower = char.toLowerCase();
  const made =
    char === '\n'
      ? char
      : char === '\r' || char === '\v' || char === '\f' || char === '\u2028' || char === '\u2029'
        ? '\n'
        : UNSEEN.test(char)
          ? ' '
          : (other ?? wide ?? (lower.length === 1 ? lower : char));
  if (plainChar.size < 5000) plainChar.set(char, made);
  return made;
}

export function plain(text: string): string {
  let shown = text.slice(0, MOST_READ);
  if (shown.includes('<')) shown = withoutTags(shown);
  if (shown.includes('&')) shown = shown.replace(ENTITY, entity);
  if (/^[\n -~]*$/u.test(shown)) return shown.toLowerCase();
  let made = '';
  // By UTF-16 unit, not by character: places must stay where they are.
  for (let i = 0; i < shown.length; i++) made += toPlain(shown.charAt(i));
  return made;
}

const gap = (length: number, first = ' '): string => first + ' '.repeat(Math.max(0, length - 1));

function withoutTags(text: string): string {
  let made = text;
  for (const name of ['style', 'script']) made = withoutPart(made, new RegExp(`<${name}\\b`, 'giu'), new RegExp(`</${name}`, 'giu'));
  return made.replace(TAG, (tag) => gap(tag.length, BREAKS.test(tag) ? '\n' : CELLS.test(tag) ? '\t' : ' '));
}

/** What a mail's program reads and no person does. Each place is looked at once. */
function withoutPart(text: string, opening: RegExp, closing: RegExp): string {
  let [made, done] = ['', 0];
  for (const { index } of text.matchAll(opening)) {
    if (index < done) continue;
    closing.lastIndex = index;
    const end = closing.exec(text)?.index;
    if (end === undefined) break;
    made += text.slice(done, index) + gap(end - index);
    done = end;
  }
  return made + text.slice(done);
}

function entity(whole: string, decimal: string | undefined, hex: string | undefined, name: string | undefined): string {
  const code = decimal === undefined ? Number.parseInt(hex ?? '', 16) : Number(decimal);
  const char = name === undefined ? (code > 31 && code < 0xd800 ? String.fromCharCode(code) : ' ') : ENTITIES[name.toLowerCase()];
  if (char === undefined) return whole;
  return LEADING.has(char) ? gap(whole.length - 1) + char : gap(whole.length, char);
}
