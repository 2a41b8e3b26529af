import { type Cells, type CellValue, define, refuse } from '../define.ts';

/** From best to worst. What is not known ranks above a look, for it may yet fail. */
const ORDER = ['holds', 'look', 'unknown', 'fails'] as const;
type Word = (typeof ORDER)[number];

/** The verdict that a check's text begins with; undefined where it is none. */
export function verdictWord(text: CellValue): Word | undefined {
  if (typeof text !== 'string') return undefined;
  const first = /^\s*(\p{L}+)/u.exec(text)?.[1]?.toLowerCase();
  return ORDER.find((word) => word === first);
}

/** Place (from 0) of the worst check and its word; −1 where there is none. The first of equals. */
export function worst(words: readonly Word[]): number {
  let at = -1;
  for (const [i, word] of words.entries()) if (at < 0 || ORDER.indexOf(word) > ORDER.indexOf(words[at] as Word)) at = i;
  return at;
}

export const VERDICT = define({
  name: 'VERDICT',
  family: 'Check',
  summary: 'The worst of several checks, with the label of the one that decides.',
  use: 'At the foot of a scenario’s checks. Fails is worse than unknown, unknown worse than look. A blank check beside a label counts as unknown; blank on both sides is passed over.',
  formula: 'worst of holds < look < unknown < fails',
  params: [
    { name: 'checks', quantity: 'texts of checks', unit: 'text', shape: 'range', meaning: 'cells that begin with holds, look, unknown or fails' },
    { name: 'labels', quantity: 'what each check is about', unit: 'text', shape: 'range', meaning: 'in the same order', optional: true },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: 'By definition: the worst decides',
  unchecked: 'It picks the worst of our own texts.',
  examples: [
    { formula: 'VERDICT({"holds, 5 % under";"fails, 12 % over"},{"Drop";"Evenness"})', gives: 'fails, see Evenness' },
    { formula: 'VERDICT({"holds, 5 % under";"holds"})', gives: 'holds' },
  ],
  work: ([checks, labels], show) => {
    const texts = checks.flat();
    const names: readonly CellValue[] | undefined = (labels as Cells | undefined)?.flat();
    if (names && names.length !== texts.length) return refuse(`VERDICT: there are ${texts.length} checks and ${names.length} labels; they must be as many.`);
    const words: Word[] = [];
    const called: string[] = [];
    for (const [i, text] of texts.entries()) {
      const label = names?.[i] ?? null;
      if (text === null && (label === null || names === undefined)) continue;
      const word = text === null ? 'unknown' : verdictWord(text);
      if (!word) return refuse(`VERDICT: check ${i + 1} is “${String(text).slice(0, 40)}”; a check begins with holds, look, unknown or fails.`);
      words.push(word);
      called.push(label === null ? `check ${i + 1}` : String(label));
    }
    const at = worst(words);
    const word = words[at];
    if (word === undefined) return refuse('VERDICT: there is no check in the range.');
    if (show) for (const kind of ORDER) if (words.includes(kind)) show.note(`${kind}: ${called.filter((_, i) => words[i] === kind).join(', ')}`);
    return word === 'holds' ? 'holds' : `${word}, see ${called[at]}`;
  },
});
