import { expect, it } from 'vitest';
import { createEngine } from '../../src/engine/engine.ts';
import { rehearsal, smallPlan } from '../../src/engine/worker/rehearsal.ts';

it('is of a plan whose every cell is worked out', async () => {
  const engine = createEngine();
  const values = Object.entries(await engine.load(smallPlan()));
  engine.close();
  expect(values.length).toBeGreaterThan(70);
  expect(values.filter(([, value]) => value.kind === 'error')).toEqual([]);
});

it('goes in many small steps, and ends', async () => {
  let steps = 0;
  for await (const _ of rehearsal()) steps++;
  expect(steps).toBeGreaterThan(50);
});
