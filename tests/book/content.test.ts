import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readContent, textContent } from '../../functions/quantity-text.ts';
import { runs } from '../cases.ts';

const piece = fc.constantFrom(
  '-',
  '.',
  ',',
  '1',
  '20',
  '0',
  'e3',
  'e-7',
  ' ',
  'm',
  'cm',
  'µmol/m²/s',
  'EUR',
  '%',
  "'",
  '"',
  '=',
  'TRUE',
  'FALSE',
  'x',
  '°C',
  '/h',
);
const text = fc.oneof(
  fc.array(piece, { maxLength: 5 }).map((pieces) => pieces.join('')),
  fc.string({ maxLength: 6 }),
);

describe('what a stored content says', () => {
  it('is a number in money of the book, and a text in any other money', () => {
    expect(readContent('5 EUR', 'EUR')).toMatchObject({ kind: 'number', base: 5, unit: 'EUR' });
    expect(readContent('5 USD', 'EUR')).toEqual({ kind: 'text', text: '5 USD' });
    expect(readContent('5 USD')).toMatchObject({ kind: 'number', base: 5, unit: 'USD' });
  });

  it('is the text itself where a text was stored', () => {
    fc.assert(
      fc.property(text, (words) => {
        const read = readContent(textContent(words));
        expect(read.kind === 'text' ? read.text : read.kind).toBe(words === '' ? 'blank' : words);
      }),
      runs(20_000, 42),
    );
  });
});
