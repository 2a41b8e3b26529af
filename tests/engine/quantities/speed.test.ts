import { expect, test } from 'vitest';
import { readContent } from '../../../functions/quantity-text.ts';
import type { Position } from '../../../src/engine/addresses.ts';
import type { Content } from '../../../src/engine/formula-text.ts';
import { Hyper } from '../../../src/engine/hyper.ts';
import { Quantities, type QuantityHost } from '../../../src/engine/quantities/index.ts';
import { long } from '../../cases.ts';

const ROWS = 20_000;
const GIVENS = 5;
const FORMULAS = 5;

/** A row of five givens and five formulas that read them, their neighbours above, and a short range. */
function line(r: number): readonly string[] {
  const above = Math.max(1, r - 1);
  return [
    '3.6 m',
    '36 in',
    '60 W',
    '16 h/d',
    '0.25 EUR/kWh',
    `=A${above}+B${r}`,
    `=C${r}*D${r}*UNIT(330,"d/year")*E${r}`,
    r === 1 ? '=A1' : `=H${above}+A${r}`,
    `=IF(A${r}>B${r},MAX(A${r},F${r}),SUM(A${r}:B${r}))`,
    `=SUM(A${Math.max(1, r - 20)}:A${r})`,
  ];
}

/**
 * Measured on two cores: 0.9 to 1 s in a program just started, 0.45 to 0.6 s after that. The best of three runs is held to the second that is
 * allowed, so that other programs on the same cores do not fail it. The long run measures it; every run sees that all is worked out.
 */
const ALLOWED = 1_000;

test('100,000 formulas are worked out within a second of the processor’s time, and an edit of a value in next to none', () => {
  const contents: Content[][] = Array.from({ length: ROWS }, (_, i) => line(i + 1).map((content) => readContent(content, 'EUR')));
  const hyper = new Hyper(['T'], {});
  hyper.fill(
    0,
    contents.map((row) => row.map((content) => (content.kind === 'number' ? content.base : content.kind === 'formula' ? content.formula : null))),
  );
  const blank: Content = { kind: 'blank' };
  const host: QuantityHost = {
    currency: 'EUR',
    content: (at) => contents[at.row]?.[at.col] ?? blank,
    ast: (at) => hyper.ast(at),
    ownUnit: () => undefined,
    named: () => undefined,
    *formulas(): Generator<Position> {
      for (let row = 0; row < ROWS; row++) for (let col = GIVENS; col < GIVENS + FORMULAS; col++) yield { sheet: 0, row, col };
    },
    readers: (at) => hyper.hf.getCellDependents(at).flatMap((each) => ('start' in each ? [] : [each])),
    parse: (formula, at) => hyper.parse(formula, at),
    tokens: (formula) => hyper.tokens(formula),
    text: (ast, at) => hyper.text(ast, at),
    address: (at) => `${at.col},${at.row}`,
    heading: () => '',
  };
  const quantities = new Quantities(host);
  const cost = (work: () => void): number => {
    const start = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(start);
    return (user + system) / 1000;
  };
  // The first run is that of a program just started; books are opened by one that has run a little.
  const took = (long ? [1, 2, 3] : [1]).map(() => cost(() => quantities.rebuild()));
  if (long) expect(Math.min(...took), `ms: ${took.join(', ')}`).toBeLessThan(ALLOWED);
  expect(quantities.kindOf({ sheet: 0, row: ROWS - 1, col: 7 })).toMatchObject({ is: 'number', dimension: { key: 'm' } });

  contents[5]?.splice(0, 1, readContent('3.7 m', 'EUR'));
  const edit = cost(() => expect(quantities.changed([{ sheet: 0, row: 5, col: 0 }]).length).toBeLessThan(2));
  if (long) expect(edit).toBeLessThan(50);
  hyper.dispose();
});
