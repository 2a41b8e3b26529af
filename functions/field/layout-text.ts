/**
 * A layout as a text that says it in full and comes back to the same numbers, such as
 * `9 (3×3) of 243 µmol/s 1.15×0.06 m 120° over 3.6×1.5 m, turned, spread 1.1×1.25, sides 0.5` (the last three only when used; in place of sides
 * there may be `beside 1 and 2 at 2.1 m`),
 * `2 at (0.6, 0.3) (1.8, 0.3 turned) of 44 µmol/s 0×0 m 60° over 3.6×1.5 m`, or several of these joined by ` + `.
 */
import { say } from '../check-args.ts';
import { isRefusal, type Refusal, refuse } from '../define.ts';
import type { FreeGroup, Group, Layout } from './layout.ts';
import { countOf } from './layout.ts';
import { layoutFault } from './layout-fault.ts';

/** LAYOUT rounds to these digits; from then on the text is the truth. */
const DIGITS = 12;

function print(x: number): string {
  const text = String(x);
  // So short a text has no digits to lose, and rounding costs more than all the rest of it.
  return text.length <= DIGITS ? text : String(Number(x.toPrecision(DIGITS)));
}

const JOINT = ' + ';

export function layoutText(layout: Layout): string {
  return layout.groups.map((group) => groupText(group, layout)).join(JOINT);
}

function groupText(group: Group, { bench, sides, beside }: Layout): string {
  const { ppf, length, width, beam } = group.fixture;
  const places = group.kind === 'regular' ? `(${group.along}×${group.across})` : `at ${group.places.map(placeText).join(' ')}`;
  const turned = group.kind === 'regular' && group.turned ? ', turned' : '';
  const spread = group.kind === 'regular' && (group.spreadAlong !== 1 || group.spreadAcross !== 1);
  const spreadText = spread ? `, spread ${print(group.spreadAlong)}×${print(group.spreadAcross)}` : '';
  return (
    `${countOf(group)} ${places} of ${print(ppf)} µmol/s ${print(length)}×${print(width)} m ${print(beam)}° ` +
    `over ${print(bench.length)}×${print(bench.width)} m${turned}${spreadText}${sides > 0 ? `, sides ${print(sides)}` : ''}` +
    (beside ? `, beside ${beside.before} and ${beside.after} at ${print(beside.apart)} m` : '')
  );
}

const placeText = ({ x, y, turned }: FreeGroup['places'][number]): string => `(${print(x)}, ${print(y)}${turned ? ' turned' : ''})`;

const N = String.raw`(-?\d+(?:\.\d+)?(?:e[+-]?\d+)?)`;
const PLACE = new RegExp(String.raw`\(${N}, ${N}( turned)?\)`, 'g');
const GROUP = new RegExp(
  String.raw`^(\d+) (?:\((\d+)×(\d+)\)|at ((?:\([^()]*\) ?)+)) ?of ${N} µmol/s ${N}×${N} m ${N}° over ${N}×${N} m(, turned)?(?:, spread ${N}×${N})?(?:, sides ${N})?(?:, beside (\d+) and (\d+) at ${N} m)?$`,
);

const known = new Map<string, Layout | Refusal>();
/** Layouts of a working day's book; beyond it the oldest goes. */
const KEPT = 512;

/** The layout that a text says, or why it is none. Results are kept by text. */
export function parseLayout(text: string): Layout | Refusal {
  const found = known.get(text);
  if (found) return found;
  const layout = readLayout(text);
  const result = isRefusal(layout) ? layout : (layoutFault(layout) ?? layout);
  if (known.size >= KEPT) known.delete(known.keys().next().value as string);
  known.set(text, result);
  return result;
}

function readLayout(text: string): Layout | Refusal {
  const parts: Layout[] = [];
  for (const part of text.normalize('NFC').trim().split(JOINT)) {
    const read = readGroup(part);
    if (isRefusal(read)) return read;
    parts.push(read);
  }
  return joinLayouts(parts);
}

function readGroup(text: string): Layout | Refusal {
  const match = GROUP.exec(text);
  if (!match) return refuse(`“${clip(text)}” says no layout. LAYOUT, LAYOUT.AT, LAYOUT.JOIN and LAYOUT.BESIDE write the text that is needed here.`);
  const number = (i: number): number => Number(match[i]);
  const fixture = { ppf: number(5), length: number(6), width: number(7), beam: number(8) };
  const group: Group = match[4]
    ? { kind: 'free', fixture, places: [...match[4].matchAll(PLACE)].map((p) => ({ x: Number(p[1]), y: Number(p[2]), turned: p[3] !== undefined })) }
    : {
        kind: 'regular',
        fixture,
        along: number(2),
        across: number(3),
        turned: match[11] !== undefined,
        spreadAlong: match[12] ? number(12) : 1,
        spreadAcross: match[13] ? number(13) : 1,
      };
  if (countOf(group) !== number(1)) return refuse(`The layout “${clip(text)}” says ${say(number(1))} fixtures but places ${say(countOf(group))}.`);
  const beside = match[15] ? { before: number(15), after: number(16), apart: number(17) } : undefined;
  return { bench: { length: number(9), width: number(10) }, beside, sides: match[14] ? number(14) : 0, groups: [group] };
}

/** Several layouts as one. They must hang over the same bench, between the same sides, with the same benches beside it. */
export function joinLayouts(parts: readonly Layout[]): Layout | Refusal {
  const first = parts[0];
  if (!first) return refuse('There is no layout to join.');
  for (const { bench, sides, beside } of parts) {
    if (bench.length !== first.bench.length || bench.width !== first.bench.width) {
      return refuse(
        `Joined layouts must hang over one bench; these say ${say(first.bench.length)}×${say(first.bench.width)} m and ${say(bench.length)}×${say(bench.width)} m.`,
      );
    }
    if (sides !== first.sides) return refuse(`Joined layouts must hang between the same sides; these reflect ${say(first.sides)} and ${say(sides)}.`);
    if ((['apart', 'before', 'after'] as const).some((key) => beside?.[key] !== first.beside?.[key])) {
      return refuse('Joined layouts must have the same rows beside them; take LAYOUT.BESIDE of what LAYOUT.JOIN gives.');
    }
  }
  return { ...first, groups: parts.flatMap((part) => part.groups) };
}

const clip = (text: string): string => (text.length > 60 ? `${text.slice(0, 57)}…` : text);
