import fc from 'fast-check';
import { expect, test } from 'vitest';
import { newField } from '../../../functions/field/memory.ts';
import { runs } from '../../cases.ts';

test('fields begin as zeros, have the length asked for, and none writes into another, small or large', () => {
  fc.assert(
    fc.property(fc.array(fc.oneof(fc.integer({ min: 1, max: 600 }), fc.integer({ min: 1, max: 20_000 })), { minLength: 1, maxLength: 40 }), (lengths) => {
      const fields = lengths.map((length, mark) => {
        const field = newField(length);
        expect(field.length).toBe(length);
        expect(field.every((e) => e === 0)).toBe(true);
        return field.fill(mark + 1);
      });
      for (const [mark, field] of fields.entries()) expect(field.every((e) => e === mark + 1)).toBe(true);
    }),
    runs(30, 14),
  );
});
