/** Holds an amount against the rules. */
import type { Amount } from './amounts.ts';
import { type Noun, nounsIn, type Owner } from './nouns.ts';
import { RULES, type Rule, WHICH_SIDE } from './rules.ts';
import type { Stretch } from './sentences.ts';
import type { Around, Judged } from './things.ts';

const JOINTS = /[.,;:!?\n()\d]| (?:in|on|at|for|from|above|over|under|to|with|and|by|between|off|of|is|are|x) /u;

const FAR_OF_LIGHT = 25;
/** `Seed trays. Twenty-five. 14 x 8 in.` */
const JUST_BEFORE = 40;

export function ownerOf({ text, nouns: all }: Around, amount: { readonly from: number; readonly to: number }, sentence: Stretch): Noun | undefined {
  const inside = nounsIn(all, sentence.from, sentence.to);
  const after = inside.find(({ from }) => from >= amount.to);
  if (after && after.from - amount.to <= 28 && !JOINTS.test(`${text.slice(amount.to, after.from)} `)) return after;
  const before = inside.findLast(({ to }) => to <= amount.from);
  // Of a light it is only what stands close to it.
  if (before)
    return before.owner === 'lamp' &&
      before.from < amount.from - FAR_OF_LIGHT &&
      /(?:bay|bench|bed|table|row|room|area) /u.test(text.slice(before.to, amount.from))
      ? undefined
      : before;
  return nounsIn(all, Math.max(0, sentence.from - JUST_BEFORE), sentence.from).findLast(({ owner }) => owner === 'tray');
}

interface Compiled {
  readonly rule: Rule;
  readonly before: RegExp | undefined;
  readonly after: RegExp | undefined;
  readonly near: RegExp | undefined;
  readonly unless: RegExp | undefined;
}

interface RuleSet {
  readonly rules: readonly Compiled[];
  /** What any of them has before or after: where nothing of it stands there, none of those has to be tried. */
  readonly anyBefore: RegExp;
  readonly anyAfter: RegExp;
}

const ruleSets = new Map<string, RuleSet>();

const beforeText = (said: string): string => `(?<![\\p{L}\\d])(?:${said})(?!\\p{L})[^\\d.;!?\\n]{0,24}$`;
const afterText = (said: string): string => `^(?:[^\\d.,;!?\\n]{0,14}?[^\\p{L}\\d.,;!?\\n])??(?:${said})(?![\\p{L}])`;
const optional = (text: string | undefined, made: (said: string) => string): RegExp | undefined =>
  text === undefined ? undefined : new RegExp(made(text), 'u');
const anyOf = (texts: readonly (string | undefined)[], made: (said: string) => string): RegExp =>
  new RegExp(made(texts.filter((text) => text !== undefined).join('|') || '(?!)'), 'u');

/** The rules of a quantity, made when they are first asked for. */
function rulesOf(quantity: string): RuleSet {
  const known = ruleSets.get(quantity);
  if (known) return known;
  const rules = RULES.filter((rule) => rule.of === quantity);
  const made: RuleSet = {
    rules: rules.map(
      (rule): Compiled => ({
        rule,
        before: optional(rule.before, beforeText),
        after: optional(rule.after, afterText),
        unless: optional(rule.unless, (said) => `(?<!\\p{L})(?:${said})`),
        near: optional(rule.near, (said) => `(?<!\\p{L})(?:${said})`),
      }),
    ),
    anyBefore: anyOf(
      rules.map(({ before }) => before),
      beforeText,
    ),
    anyAfter: anyOf(
      rules.map(({ after }) => after),
      afterText,
    ),
  };
  ruleSets.set(quantity, made);
  return made;
}

export function judge({ text }: Around, amount: Amount, sentence: Stretch, owner: Owner): Judged | undefined {
  const value = amount.values[0] ?? 0;
  const before = text.slice(Math.max(sentence.from, amount.from - 70), amount.from);
  const after = text.slice(amount.to, Math.min(sentence.to, amount.to + 80));
  const whole = text.slice(Math.max(sentence.from, amount.from - 200), Math.min(sentence.to, amount.to + 200));
  const { rules, anyBefore, anyAfter } = rulesOf(amount.quantity);
  const [hasBefore, hasAfter] = [anyBefore.test(before), anyAfter.test(after)];
  for (const { rule, before: b, after: a, near, unless } of rules) {
    if ((b && !hasBefore) || (a && !hasAfter)) continue;
    if (rule.whose && !rule.whose.includes(owner)) continue;
    if ((rule.least !== undefined && value < rule.least) || (rule.most !== undefined && value > rule.most)) continue;
    const parted = Math.max(value, amount.values[1] ?? value) / Math.min(value, amount.values[1] ?? value);
    if ((rule.spread && !(parted > 2)) || (rule.pair && !(parted > 1.5))) continue;
    const [stands, follows] = [b ? b.exec(before) : undefined, a ? a.exec(after) : undefined];
    if (stands === null || follows === null || (near && !near.test(whole)) || unless?.test(whole)) continue;
    const from = stands ? amount.from - stands[0].length : amount.from;
    const to = follows ? amount.to + follows[0].length : amount.to;
    return { means: rule.means, from, to, ask: rule.ask, unsided: rule.ask === WHICH_SIDE };
  }
  return undefined;
}
