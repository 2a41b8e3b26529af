import { expect, test } from 'vitest';
import { AIR_FLOW_MOISTURE } from '../../../functions/heat/air-flow-moisture.ts';

test('air that is drier by next to nothing is said to carry no vapour off, and has no endless flow', () => {
  expect(AIR_FLOW_MOISTURE.work([1.2, 0.015, 0.01] as never, undefined)).toBeCloseTo(1.2 / (1.2 * 0.005), 9);
  expect(AIR_FLOW_MOISTURE.work([0.01, 5e-324, 0] as never, undefined)).toMatchObject({ message: expect.stringContaining('hardly drier') });
});
