import { describe, expect, test } from 'vitest';
import { unit } from '../../functions/units.ts';
import { tableNamed, textOf } from '../../src/book/address.ts';
import { addScenario } from '../../src/book/commands/add-scenario.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { noteOf, rangeOf, rowHeading, sourceOf, standingOf, unitOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import { cells, openTemplate, slugs, templateBook } from './open-template.ts';
import { readsOf } from './references.ts';

test('there is a trade bench', () => {
  expect(slugs).toContain('trade-bench');
});

/** `Planned.A2:F4` → its first and its last cell. */
function cornersOf(target: string): readonly string[] {
  const [first = '', last] = target.split(':');
  return last === undefined ? [first] : [first, `${first.slice(0, first.indexOf('.'))}.${last}`];
}

describe.each(slugs)('the template %s', (slug) => {
  const book = templateBook(slug);
  const givens = cells(book).filter(({ at }) => ['given', 'as'].includes(standingOf(at)));
  const list = (of: typeof givens) => of.map(({ address, at }) => `${address} ${rowHeading(at)}`);

  test('opens with no error in any cell', async () => {
    const session = await openTemplate(slug);
    const errors = Object.entries(session.values).flatMap(([address, value]) => (value.kind === 'error' ? [`${address}: ${value.message}`] : []));
    session.close();
    expect(session.trouble).toBeUndefined();
    expect(errors).toEqual([]);
    expect(Object.keys(session.values).length).toBeGreaterThan(100);
  });

  test('says in one line what it is for', () => {
    expect(book.purpose).toMatch(/^\S.{20,160}\.$/);
    expect(book.client).not.toBe('');
  });

  test('asks the client for six givens at most', () => {
    const asked = givens.filter(({ at }) => sourceOf(at)?.startsWith('client'));
    expect(asked.length).toBeGreaterThan(0);
    expect(asked.length).toBeLessThanOrEqual(6);
  });

  test('says of each given who said so', () => {
    const lists = new Set(book.tables.filter((t) => t.form === 'list').map((t) => t.name));
    expect(list(givens.filter(({ at }) => !lists.has(at.table.name) && !sourceOf(at)))).toEqual([]);
    // A look-up table says it in a column of its own.
    for (const table of book.tables.filter((t) => lists.has(t.name))) {
      const heads = Object.values(table.cells[table.rows[0]?.id ?? ''] ?? {}).map((cell) => cell.content);
      expect(heads, table.name).toContain('Source');
    }
  });

  test('names no crop where the word must hold for any that is picked', () => {
    const crops = tableNamed(book, 'Crops');
    const first = crops?.columns[0]?.id ?? '';
    const names = (crops?.rows ?? []).slice(1).flatMap((row) => crops?.cells[row.id]?.[first]?.content.toLowerCase() ?? []);
    const words = new Set(names.flatMap((name) => name.split(/\W+/)).filter((word) => word.length > 4));
    expect([...words]).toEqual(expect.arrayContaining(['basil', 'lettuce']));
    const said = givens.flatMap(({ at }) => (at.row.id === 'day_length_kind' ? [sourceOf(at)?.toLowerCase() ?? ''] : []));
    // Where Crops knows the day length of each crop there is, nothing stands in for it.
    expect(said).toHaveLength(slug === 'growing-canopy' ? 0 : 1);
    expect([...words].filter((word) => said.some((text) => text.includes(word)))).toEqual([]);
  });

  test('gives each given an allowed range, and each quantity a unit', () => {
    const numbers = givens.filter(({ at }) => /^[-+]?[\d.]+(?: \S+)?$/.test(at.cell?.content ?? ''));
    expect(list(numbers.filter(({ at }) => rangeOf(at) === undefined))).toEqual([]);
    const quantities = numbers.filter(({ at }) => /\d \S/.test(at.cell?.content ?? ''));
    // A limit that says its own unit holds whatever the cell is shown in.
    expect(
      list(quantities.filter(({ at }) => rangeOf(at)?.low !== undefined && (at.cell?.range ?? at.row.range ?? at.column.range)?.unit === undefined)),
    ).toEqual([]);
    expect(list(quantities.filter(({ at }) => unitOf(at) === undefined || unit(unitOf(at) ?? '') === undefined))).toEqual([]);
  });

  test('works out every other number by a formula', () => {
    const typed = cells(book).filter(({ at }) => ['worked', 'check'].includes(standingOf(at)) && !(at.cell?.content ?? '').startsWith('='));
    expect(list(typed)).toEqual([]);
    const alone = cells(book).filter(({ at }) => {
      const content = at.cell?.content ?? '';
      if (!content.startsWith('=')) return false;
      const { single, ranged } = readsOf(book, at.table.name, content);
      return single.size + ranged.size === 0;
    });
    expect(list(alone), 'formulas that read nothing').toEqual([]);
  });

  test('hides no mistake, and writes no quantity without its unit', () => {
    for (const { address, at } of cells(book)) {
      const content = at.cell?.content ?? '';
      if (!content.startsWith('=')) continue;
      expect(content, address).not.toMatch(/IFERROR|ISERR|IFNA/);
    }
  });

  test('judges a plan by every check there is, and by what each is called', () => {
    for (const table of book.tables) {
      const checks = table.rows.flatMap((row, r) => (row.kind === 'check' && !row.strong ? [r] : []));
      for (const [r, row] of table.rows.entries()) {
        const formula = table.cells[row.id]?.[table.columns[0]?.id ?? '']?.content ?? '';
        if (!formula.startsWith('=VERDICT(') || table.form !== 'scenarios') continue;
        // The life of the lights is judged below what it costs, apart from the others.
        const [, first, last, list, from, to, apart, line] =
          /^=VERDICT\(A(\d+):A(\d+),(\w+)\.\$A\$(\d+):\$A\$(\d+),A(\d+):A\d+,Checks\.\$A\$(\d+):\$A\$\d+\)$/.exec(formula) ?? [];
        const many = checks.slice(0, -1);
        expect([Number(first) - 1, Number(last) - 1, Number(apart) - 1], `${table.name}, row ${r + 1}`).toEqual([many[0], many.at(-1), checks.at(-1)]);
        expect(many).toEqual(many.map((_, i) => Number(first) - 1 + i));
        const names = tableNamed(book, list ?? '');
        const lines = [...(names?.rows.slice(Number(from) - 1, Number(to)) ?? []), ...(names?.rows.slice(Number(line) - 1, Number(line)) ?? [])];
        const called = lines.map((entry) => names?.cells[entry.id]?.[names.columns[0]?.id ?? '']?.content);
        expect(called).toEqual(checks.map((check) => table.rows[check]?.label));
      }
    }
  });

  test('counts nothing where one of what it counts has no value', async () => {
    // LAYOUT.COUNT and its like read single cells, where an error is passed on anyway.
    const counts = cells(book).filter(({ at }) => /(?<![A-Z.])(COUNT(A|BLANK|IFS?)?|SUM(IFS?|PRODUCT)|AVERAGEIFS?)\(/.test(at.cell?.content ?? ''));
    if (['greenhouse-bench', 'growing-canopy', 'meter-check'].includes(slug)) expect(counts.length).toBeGreaterThan(0);
    const session = await openTemplate(slug);
    for (const { address, at } of counts) {
      for (const read of readsOf(book, at.table.name, at.cell?.content ?? '').ranged) {
        const broken = setCell(session.book, { address: read, content: '=1/0' });
        if (isRefused(broken)) throw new Error(broken.message);
        session.dispatch(broken);
        await session.settled();
        expect(session.values[address]?.kind, `${address} where ${read} is an error`).toBe('error');
        session.undo();
      }
    }
    await session.settled();
    session.close();
  });

  test('says that none holds where none does, and never calls one that fails the cheapest', async () => {
    const scenarios = book.tables.find((t) => t.form === 'scenarios');
    const row = scenarios?.rows.findIndex(({ id }) => id === 'verdict') ?? -1;
    const verdicts = (scenarios?.columns ?? []).map((_, column) => textOf('Scenarios', column, row));
    const cheapest = (book.names.cheapest ?? '').replaceAll('$', '');
    const session = await openTemplate(slug);
    const says = async (...texts: readonly string[]) => {
      for (const [i, address] of verdicts.entries()) {
        const change = setCell(session.book, { address, content: texts[i] ?? texts.at(-1) ?? '' });
        if (isRefused(change)) throw new Error(change.message);
        session.dispatch(change);
      }
      await session.settled();
      return session.values[cheapest];
    };
    expect(verdicts.length).toBeGreaterThan(1);
    expect(await says('fails, see Light')).toEqual({ kind: 'text', text: 'none holds' });
    expect(await says('fails, see Light', 'unknown, see Load')).toEqual({ kind: 'text', text: 'none holds' });
    expect(await says('fails, see Light', 'holds', 'fails, see Light')).toEqual({ kind: 'text', text: 'B' });
    expect(await says('fails, see Light', 'close to limit, see Load', 'unknown, see Load')).toEqual({ kind: 'text', text: 'B' });
    // A verdict that can't be worked out is not ranked, and refuses no other its rank.
    expect(await says('fails 1: Light', 'fails 1: Light', '=1/0')).toEqual({ kind: 'text', text: 'none holds' });
    // Where none can be worked out nobody knows that none holds.
    expect(await says('=1/0')).toMatchObject({ kind: 'error' });
    expect(await says('=1/0', 'holds, 2 assumed: Light, Hours', '=1/0')).toEqual({ kind: 'text', text: 'B' });
    const added = addScenario(session.book, { table: 'scenarios' });
    if (isRefused(added)) throw new Error(added.message);
    session.dispatch(added);
    verdicts.push(textOf('Scenarios', verdicts.length, row));
    const last = String.fromCharCode(64 + verdicts.length);
    expect(await says(...verdicts.slice(1).map(() => 'fails, see Light'), 'holds')).toEqual({ kind: 'text', text: last });
    session.close();
  });

  test('names its givens so that they can be set by name', () => {
    const shared = givens.filter(({ at }) => ['brief', 'plain'].includes(at.table.form));
    const named = new Set(Object.values(book.names).map((target) => target.replaceAll('$', '')));
    expect(list(shared.filter(({ address }) => !named.has(address)))).toEqual([]);
    for (const name of Object.keys(book.names)) {
      expect(name).toMatch(/^[a-z][a-z_]*$/);
      expect(unit(name), `${name} is a unit`).toBeUndefined();
    }
  });

  test('points pictures and prose at cells that are there', async () => {
    const session = await openTemplate(slug);
    const known = new Set(Object.keys(session.values));
    session.close();
    for (const block of book.pages.flatMap((page) => page.blocks)) {
      const targets =
        block.kind === 'picture' ? Object.values(block.reads) : block.kind === 'prose' ? [...block.text.matchAll(/\{\{(.+?)\}\}/g)].map((m) => m[1] ?? '') : [];
      // Of a block of cells both corners are there.
      for (const corner of targets.flatMap((target) => cornersOf((book.names[target] ?? target).replaceAll('$', ''))))
        expect(known, `${block.id} reads ${corner}`).toContain(corner);
    }
  });

  test('carries the usual cautions', () => {
    const prose = book.pages.flatMap((page) => page.blocks.flatMap((block) => (block.kind === 'prose' ? [block.text] : []))).join('\n');
    for (const word of ['electrician', 'installer', 'do not stare', 'residual-current', 'planning estimate', 'ladders', 'foliage'])
      expect(prose).toContain(word);
  });

  test('explains the givens that a grower would ask about', () => {
    const asked = givens.filter(({ at }) => ['brief', 'plain'].includes(at.table.form));
    const told = asked.filter(({ at }) => noteOf(at) || at.row.help);
    expect(told.length / asked.length).toBeGreaterThan(0.6);
  });
});
