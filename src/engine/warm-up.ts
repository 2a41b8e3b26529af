/** The first field and the first search cost tens of milliseconds more than later ones: they are spent while nobody waits. */
import { BENCH_MEAN } from '../../functions/field/bench-mean.ts';
import { LAYOUT } from '../../functions/field/layout-function.ts';
import { argumentsOf, run } from './register.ts';

export function warmUp(): void {
  for (const beam of [120, 90]) {
    const layout = run(LAYOUT, argumentsOf(LAYOUT, [100, 1.2, 0.06, beam, 2, 2, 2.4, 1.2]), undefined);
    run(BENCH_MEAN, argumentsOf(BENCH_MEAN, [layout, 0.4]), undefined);
  }
}
