/** A crop of which its source names a low end alone is judged by that, and no text says a value’s kind in place of what it is. */
import { describe, expect, test } from 'vitest';
import type { Value } from '../../src/engine/types.ts';
import type { Session } from '../../src/session.ts';
import { long } from '../cases.ts';
import { makeFrom, textOf } from '../handover/made.ts';
import { inside, slugs, templateBook } from './open-template.ts';
import { entryOf, fill, has, row, said } from './rows.ts';

const IS_THE_TEXT = /is the text\b/i;

const nameOf = (session: Session, name: string): string => (session.book.names[name] ?? '').replaceAll('$', '');

describe.each(slugs)('a low end alone, in %s', (slug) => {
  test('decides by itself, is close within 5 %, and what is aimed at is a tenth above it', () =>
    inside(slug, async (session) => {
      const crops = session.book.tables.find((t) => t.name === 'Crops');
      const free = (crops?.rows.findIndex((r, i) => i > 0 && !crops.cells[r.id]?.a?.content) ?? -1) + 1;
      await fill(session, [`Crops.A${free}`, 'cress'], [`Crops.B${free}`, 'any'], ['crop', 'cress'], ['stage', 'any']);
      const at = entryOf(session, 'Crops', 'cress', 'DLI low');
      await fill(session, [at, '10 mol/m²/d']);
      expect(said(session, nameOf(session, 'target_aim'), 'mol/m²/d')).toBeCloseTo(11, 9);
      expect(said(session, nameOf(session, 'target_high'))).toBe('no high end');
      // The light of which the check tells, in each template's own row.
      const [light, check] =
        slug === 'growing-canopy' ? ['dli_least', 'c_low'] : slug === 'greenhouse-bench' ? ['darkest_light', 'c_target'] : ['dli', 'c_target'];
      const reached = Number(row(session, light, 'mol/m²/d'));
      for (const [share, state] of [
        [0.8, /^holds, 25 % above/],
        [0.97, /^close to limit, 3.1 % above/],
        [1.25, /^fails, 20 % below/],
      ] as const) {
        await fill(session, [at, `${reached * share} mol/m²/d`]);
        expect(row(session, check), String(share)).toMatch(state);
      }
      if (has(session, 'c_high')) expect(row(session, 'c_high')).toBe('assumed, no high end is named');
    }));
});

interface Kind {
  readonly crop: string;
  readonly stage: string;
  readonly lacks: string;
}

/** All crops, or in the short run one of each kind: which end of its daily light a row leaves blank decides what can go wrong. */
function kinds(slug: string): readonly Kind[] {
  const crops = templateBook(slug).tables.find((t) => t.name === 'Crops');
  const found = (crops?.rows.slice(1) ?? []).flatMap((r): Kind[] => {
    const text = (column: string): string => crops?.cells[r.id]?.[column]?.content ?? '';
    const lacks = ['f', 'g'].map((column) => (text(column) === '' ? '-' : column)).join('');
    return text('a') === '' ? [] : [{ crop: text('a'), stage: text('b'), lacks }];
  });
  return long ? found : [...new Map(found.map((kind) => [kind.lacks, kind])).values()];
}

/** What a value says to whoever looks at it: its text, or why there is none. */
const told = (value: Value): string => (value.kind === 'text' ? value.text : value.kind === 'error' ? value.message : '');

test.each(slugs)('whatever the crop, nothing in %s says that a value is a text', { timeout: 120_000 }, (slug) =>
  inside(slug, async (session) => {
    const all = kinds(slug);
    expect(new Set(all.map(({ lacks }) => lacks))).toEqual(new Set(['fg', 'f-', '-g', '--']));
    for (const { crop, stage, lacks } of all) {
      await fill(session, ['crop', crop], ['stage', stage]);
      const wrong = Object.entries(session.values).filter(([, value]) => IS_THE_TEXT.test(told(value)));
      expect(wrong.map(([address, value]) => `${address}, ${crop}, ${stage}: ${told(value)}`)).toEqual([]);
      // A sheet takes as long as all the rest: the short run makes those of one book.
      if (lacks.endsWith('-') && (long || slug === 'trade-bench')) expect(textOf((await makeFrom(session)).body)).not.toMatch(IS_THE_TEXT);
    }
  }),
);
