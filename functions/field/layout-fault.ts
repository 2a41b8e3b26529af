/** What is wrong with a layout, in a sentence for the person at the bench. */
import { say } from '../check-args.ts';
import { type Refusal, refuse } from '../define.ts';
import { type Face, faces, type Layout, layoutCount } from './layout.ts';
import { LIMITS } from './limits.ts';

/** Touching faces are fine: less than this is touching, m. */
const TOUCH = 1e-6;

const metres = (x: number): string => `${say(Number(x.toPrecision(4)))} m`;

/** Undefined where the layout can be reckoned. */
export function layoutFault(layout: Layout): Refusal | undefined {
  return numberFault(layout) ?? countFault(layout) ?? besideFault(layout) ?? overlapFault(layout) ?? wallFault(layout);
}

function numberFault({ bench, sides, groups }: Layout): Refusal | undefined {
  const within = (what: string, x: number, low: number, high: number, unit: string): string | undefined =>
    x >= low && x <= high ? undefined : `The layout's ${what} is ${say(x)}${unit}; it can be from ${say(low)} to ${say(high)}${unit}.`;
  const checks = [
    within('bench length', bench.length, LIMITS.benchLeast, LIMITS.benchMost, ' m'),
    within('bench width', bench.width, LIMITS.benchLeast, LIMITS.benchMost, ' m'),
    within('wall reflectance', sides, 0, LIMITS.sidesMost, ''),
  ];
  for (const group of groups) {
    const { ppf, length, width, beam } = group.fixture;
    checks.push(
      ppf > 0 && ppf <= LIMITS.ppfMost ? undefined : `The layout's output is ${say(ppf)} µmol/s; it can be above 0 and up to ${say(LIMITS.ppfMost)} µmol/s.`,
    );
    checks.push(within('face length', length, 0, LIMITS.faceMost, ' m'), within('face width', width, 0, LIMITS.faceMost, ' m'));
    checks.push(within('beam', beam, LIMITS.beamLeast, LIMITS.beamMost, '°'));
    if (group.kind === 'free') {
      for (const { x, y } of group.places) checks.push(within('position', Math.max(Math.abs(x), Math.abs(y)), 0, LIMITS.placeMost, ' m from the origin'));
    } else {
      for (const spread of [group.spreadAlong, group.spreadAcross]) checks.push(within('spread', spread, LIMITS.spreadLeast, LIMITS.spreadMost, ''));
    }
  }
  const fault = checks.find((check) => check !== undefined);
  return fault === undefined ? undefined : refuse(fault);
}

function countFault(layout: Layout): Refusal | undefined {
  const count = layoutCount(layout);
  if (count < 1) return refuse('The layout has no fixture; the least is 1 along and 1 across.');
  return count > LIMITS.fixturesMost ? refuse(`The layout has ${say(count)} fixtures; the most is ${say(LIMITS.fixturesMost)}.`) : undefined;
}

function besideFault(layout: Layout): Refusal | undefined {
  const { bench, beside, sides } = layout;
  if (!beside) return undefined;
  if (sides > 0) return refuse('Reflecting sides shut the rows beside it out; take a layout with wall reflectance 0.');
  const { apart, before, after } = beside;
  const farthest = Math.max(before, after);
  if (apart < bench.width - TOUCH) return refuse(`Rows ${metres(apart)} from centre to centre lie over one another; each is ${metres(bench.width)} wide.`);
  if (farthest > LIMITS.besideMost || farthest * apart > LIMITS.placeMost) {
    return refuse(
      `The farthest row is ${say(farthest)} on, ${metres(farthest * apart)} away; the most is ${say(LIMITS.besideMost)} and ${say(LIMITS.placeMost)} m.`,
    );
  }
  const count = layoutCount(layout) * (1 + before + after);
  return count > LIMITS.besideFixturesMost
    ? refuse(`With the rows beside it the layout has ${say(count)} fixtures; the most is ${say(LIMITS.besideFixturesMost)}.`)
    : undefined;
}

/** How far two faces run into each other on one axis, m; two that have no extent there count as meeting where they coincide. */
const runsInto = (distance: number, a: number, b: number): boolean => (a + b === 0 ? distance < TOUCH : (a + b) / 2 - distance > TOUCH);

const overlap = (a: Face, b: Face): boolean => runsInto(Math.abs(a.x - b.x), a.length, b.length) && runsInto(Math.abs(a.y - b.y), a.width, b.width);

function overlapFault(layout: Layout): Refusal | undefined {
  const all = faces(layout).sort((a, b) => a.x - a.length / 2 - (b.x - b.length / 2));
  for (const [i, a] of all.entries()) {
    for (let j = i + 1; j < all.length; j++) {
      const b = all[j] as Face;
      // Sorted by their left ends: those that begin right of this one's end are clear of it, and so are all after them.
      if (b.x - b.length / 2 > a.x + a.length / 2 + TOUCH) break;
      if (overlap(a, b)) return refuse(overlapMessage(layout, a, b));
    }
  }
  return undefined;
}

function overlapMessage({ bench, beside, groups }: Layout, a: Face, b: Face): string {
  const only = groups[0];
  const alongX = Math.abs(a.x - b.x) > Math.abs(a.y - b.y);
  const size = alongX ? a.length : a.width;
  if (groups.length === 1 && only?.kind === 'regular' && size > 0 && !beside) {
    const [count, room] = alongX ? [only.along, only.spreadAlong * bench.length] : [only.across, only.spreadAcross * bench.width];
    const side = alongX ? 'along' : 'across';
    const fit = Math.floor((room + TOUCH) / size);
    return `The faces overlap: ${say(count)} ${side} are ${metres(room / count)} apart and ${metres(size)} ${alongX ? 'long' : 'wide'} that way; ${fit < 1 ? 'only one' : fit} ${fit > 1 ? 'fit' : 'fits'} ${side}.`;
  }
  if (a.length + a.width + b.length + b.width === 0) {
    return `Two points are at one place, (${metres(a.x)}, ${metres(a.y)}); move one of them, or take one with the output of both.`;
  }
  return `Two faces overlap: those centred at (${metres(a.x)}, ${metres(a.y)}) and (${metres(b.x)}, ${metres(b.y)}); move them apart by the size of a face.`;
}

function wallFault(layout: Layout): Refusal | undefined {
  if (layout.sides === 0) return undefined;
  const { length, width } = layout.bench;
  const out = (f: Face): number => Math.max(f.length / 2 - f.x, f.x + f.length / 2 - length, f.width / 2 - f.y, f.y + f.width / 2 - width);
  const crossing = faces(layout).find((f) => out(f) > TOUCH);
  return (
    crossing &&
    refuse(
      `A face centred at (${metres(crossing.x)}, ${metres(crossing.y)}) crosses a reflecting side by ${metres(out(crossing))}; keep faces within ${metres(length)} × ${metres(width)}, or set the wall reflectance to 0.`,
    )
  );
}
