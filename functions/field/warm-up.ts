/** Runs the field a few times on small benches, so that the first answer a person waits for comes from compiled code and cached constants. */
import { benchField, landingShare } from './kernel.ts';
import type { Layout } from './layout.ts';
import { meanByHeight } from './mean-by-height.ts';

/** Beams that are met most; their constants are kept from here on. */
const BEAMS = [120, 110, 100, 90, 60];
/** Enough for the compiler to take notice, a few milliseconds in all. */
const ROUNDS = 20;

/** For a worker to call once, when it starts and has nothing else to do. Gives a number so that nothing is left out. */
export function warmUp(): number {
  let sum = 0;
  for (let round = 0; round < ROUNDS; round++) {
    for (const beam of BEAMS) {
      const layout: Layout = {
        bench: { length: 2.4, width: 1.2 },
        sides: 0,
        groups: [
          { kind: 'regular', fixture: { ppf: 100, length: 0.6, width: 0.06, beam }, along: 2, across: 3, turned: false, spreadAlong: 1, spreadAcross: 1 },
        ],
      };
      sum += (benchField(layout, 0.4, 12, 6)[0] as number) + landingShare(layout, 0.4) + meanByHeight(layout, 0.2, 1, 12, 6)(0.5);
    }
  }
  return sum;
}
