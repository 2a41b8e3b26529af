import { type Cells, type CellValue, define, refuse } from '../define.ts';
import { CLOSE } from './margin.ts';

/** From best to worst. What rests on an assumption is less grave than a limit that is near; what is not known may yet fail. */
const ORDER = ['holds', 'assumed', 'look', 'unknown', 'fails'] as const;
export type Word = (typeof ORDER)[number];

/** As it is written, in a check and in a verdict. Books begun earlier have formulas of their own that say look. */
const written = (word: Word): string => (word === 'look' ? CLOSE : word);
const CLOSE_FIRST = new RegExp(`^\\s*${CLOSE}\\b`, 'iu');

/** A verdict that holds only so far says so after its first word: `holds, 2 assumed: Brightest point, Hours`, `holds, 1 check lacking`. */
const HOLDS_ASSUMED = /^\s*holds\b[\s,:;]*\d+\s+(?:assumed|checks?)\b/iu;

/** A margin comes after it, and no count of what is assumed or lacking. */
const PLAINLY_HOLDS = /^holds, [\d.]+ [^acAC\s]/;
const WORSE = ORDER.filter((word) => word !== 'holds').map((word) => [word, written(word)] as const);

/** Nearly every check begins with its word in small letters, and a comma or nothing after it: read so, a text costs a fraction of what the patterns do. */
function plainWord(text: string): Word | undefined {
  if (text === 'holds' || PLAINLY_HOLDS.test(text)) return 'holds';
  for (const [word, said] of WORSE) if (text.startsWith(said) && (text.length === said.length || text[said.length] === ',')) return word;
  return undefined;
}

/** The verdict that a check's text begins with; undefined where it is none. */
export function verdictWord(text: CellValue): Word | undefined {
  if (typeof text !== 'string') return undefined;
  const plain = plainWord(text);
  if (plain) return plain;
  if (HOLDS_ASSUMED.test(text)) return 'assumed';
  if (CLOSE_FIRST.test(text)) return 'look';
  const first = /^\s*(\p{L}+)/u.exec(text)?.[1]?.toLowerCase();
  return ORDER.find((word) => word === first);
}

/** How many there are, and which: `2: Evenness, Circuits free`. */
const counted = (labels: readonly string[]): string => `${labels.length}: ${labels.join(', ')}`;

/** The verdict over checks with their labels: how many are how, the worst first, and which. */
export function verdict(checks: readonly { readonly word: Word; readonly label: string }[]): string {
  const labels: Readonly<Record<Word, string[]>> = { holds: [], assumed: [], look: [], unknown: [], fails: [] };
  for (const { word, label } of checks) labels[word].push(label);
  const { assumed } = labels;
  const worse = (['fails', 'unknown', 'look'] as const).filter((word) => labels[word].length > 0);
  if (worse.length === 0) return assumed.length === 0 ? 'holds' : `holds, ${assumed.length} assumed: ${assumed.join(', ')}`;
  const said = worse.map((word) => `${written(word)} ${counted(labels[word])}`);
  return [...said, ...(assumed.length > 0 ? [`assumed ${counted(assumed)}`] : [])].join('; ');
}

const LABELS = { quantity: 'what each check is about', unit: 'text', shape: 'range', meaning: 'in the same order', optional: true } as const;

export const VERDICT = define({
  name: 'VERDICT',
  family: 'Check',
  summary: 'What several checks come to: how many fail, are unknown or are close to limit, and which.',
  use: 'At the foot of a scenario’s checks. Fails is worse than unknown, unknown worse than close to limit; a plan that holds on assumptions says how many and which. A blank check beside a label counts as unknown; blank on both sides is passed over.',
  formula: 'worst of holds < assumed < close to limit < unknown < fails',
  params: [
    {
      name: 'checks',
      quantity: 'texts of checks',
      unit: 'text',
      shape: 'range',
      meaning: 'cells that begin with holds, assumed, close to limit, unknown or fails',
    },
    { ...LABELS, name: 'labels' },
    { name: 'also', quantity: 'texts of checks', unit: 'text', shape: 'range', meaning: 'that stand apart from the others', optional: true },
    { ...LABELS, name: 'also labels' },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: 'By definition: the worst decides',
  unchecked: 'It picks the worst of our own texts.',
  examples: [
    { formula: 'VERDICT({"fails, 5 % over";"fails, 12 % over";"holds"},{"Evenness";"Circuits free";"Drop"})', gives: 'fails 2: Evenness, Circuits free' },
    { formula: 'VERDICT({"holds, 5 % under";"assumed, 35 % under"},{"Drop";"Hours"})', gives: 'holds, 1 assumed: Hours' },
    { formula: 'VERDICT({"holds, 5 % under";"holds"})', gives: 'holds' },
  ],
  work: ([checks, labels, also, alsoLabels], show) => {
    const flat = (...ranges: readonly (Cells | undefined)[]): CellValue[] => ranges.flatMap((cells) => cells?.flat() ?? []);
    const texts = flat(checks, also as Cells | undefined);
    const names = labels && flat(labels as Cells, alsoLabels as Cells | undefined);
    if (names && names.length !== texts.length) return refuse(`VERDICT: there are ${texts.length} checks and ${names.length} labels; they must be as many.`);
    const found: { readonly word: Word; readonly label: string }[] = [];
    for (const [i, text] of texts.entries()) {
      const label = names?.[i] ?? null;
      if (text === null && (label === null || names === undefined)) continue;
      const word = text === null ? 'unknown' : verdictWord(text);
      if (!word)
        return refuse(`VERDICT: check ${i + 1} is “${String(text).slice(0, 40)}”; a check begins with holds, assumed, close to limit, unknown or fails.`);
      found.push({ word, label: label === null ? `check ${i + 1}` : String(label) });
    }
    if (found.length === 0) return refuse('VERDICT: there is no check in the range.');
    if (show)
      for (const kind of ORDER) {
        const of = found.filter(({ word }) => word === kind).map(({ label }) => label);
        if (of.length > 0) show.note(`${written(kind)}: ${of.join(', ')}`);
      }
    return verdict(found);
  },
});
