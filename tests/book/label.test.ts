import { expect, it } from 'vitest';
import { sentence, tableHeading } from '../../src/book/label.ts';

it('a sentence has one stop: its own, or one that is put to it', () => {
  expect(sentence('Mount height, A: 60 cm → 55 cm')).toBe('Mount height, A: 60 cm → 55 cm.');
  expect(sentence('Where it hangs: blank → by the door, perhaps?')).toBe('Where it hangs: blank → by the door, perhaps?');
  expect(sentence('A note of forty letters and more that…')).toBe('A note of forty letters and more that…');
  expect(sentence('Client: Smith & Co.')).toBe('Client: Smith & Co.');
});

it('a table whose name is two words in one is headed by both', () => {
  expect(['LuxMeter', 'Brief', 'DLI', 'Lux meter', 'Years 2'].map(tableHeading)).toEqual(['Lux meter', 'Brief', 'DLI', 'Lux meter', 'Years 2']);
});
