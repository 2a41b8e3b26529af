import { describe, expect, it } from 'vitest';
import { cellAt, placeIn } from '../../src/book/address.ts';
import { apply } from '../../src/book/apply.ts';
import { begin } from '../../src/book/begin.ts';
import type { Book, Table } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { setSource } from '../../src/book/commands/set-source.ts';
import { addressOf, placeOf } from '../../src/book/look-up.ts';
import { type Answer, isRefused } from '../../src/book/refused.ts';
import { isLeft, questionsOn } from '../../src/book/said-by.ts';
import { viewOf } from '../../src/ui/cells/cell-view.ts';
import { slugs, templateBook } from '../templates/open-template.ts';
import { plainField } from '../templates/plain-light.ts';
import { type Made, make, makeFrom, marked, section, textOf } from './made.ts';

function done(answer: Answer): Change {
  if (isRefused(answer)) throw new Error(answer.message);
  return answer;
}

/** What the page shows in a cell. */
function onPage(made: Made, address: string): string {
  const at = cellAt(made.session.book, address);
  if (!at) throw new Error(`The sheet names ${address}, which the book does not have.`);
  const { value, number } = viewOf(at, made.session.values);
  if (number) return number.text;
  if (value.kind === 'text') return value.shown ?? value.text;
  if (value.kind === 'yes or no') return value.yes ? 'yes' : 'no';
  return value.kind === 'error' ? value.word : 'unknown';
}

const withCell = (book: Book, tableId: string, row: string, content: string, column = 'a'): Book => ({
  ...book,
  tables: book.tables.map(
    (t): Table => (t.id === tableId ? { ...t, cells: { ...t.cells, [row]: { ...t.cells[row], [column]: { ...t.cells[row]?.[column], content } } } } : t),
  ),
});

describe.each(slugs)('the sheet of the template %s', (slug) => {
  const making = make(templateBook(slug));

  it('prints each value as its cell shows it', async () => {
    const made = await making;
    const cells = marked(made.body, 'data-cell');
    expect(cells.length).toBeGreaterThan(150);
    for (const { target, text } of cells) expect(text, target).toBe(onPage(made, target));
  });

  it('prints no number that has neither a cell nor the layout behind it', async () => {
    const made = await making;
    const { book } = made.session;
    // Pictures have axes of their own; the lines of the workings are the engine's own steps.
    let rest = made.body
      .replace(/<p class="work-(?:step|formula|reads)">[\s\S]*?<\/p>/g, '')
      .replace(/<svg class="map-key"[\s\S]*?<\/svg>|<svg viewBox[\s\S]*?<\/svg>/g, '');
    const known = [...marked(rest, 'data-cell'), ...marked(rest, 'data-from')].sort((a, b) => b.start - a.start);
    for (const { start, end } of known) rest = `${rest.slice(0, start)}<i>${rest.slice(end)}`;
    const texts = rest
      .split(/<[^>]*>/)
      .map((piece) => textOf(piece).trim())
      .filter((piece) => /\d/.test(piece));
    const said = JSON.stringify(book);
    const own = [
      /^1 : \d+/,
      /^1 in = \d+ (?:ft|in),/,
      /points \d+ × \d+/,
      /squares/,
      /^\d+ of \d+ questions (?:is|are) still to be asked$/,
      /cut to 6 digits/,
      /Book [0-9a-f]{8}\.$/,
      /^[\d.]+\s(?:m|ft)$/,
      /^[A-Z]\w+\.[A-Z]+\d+$/,
    ];
    // Numbers of the lights in the plan stand alone.
    const numbers = new Set(Array.from({ length: 60 }, (_, i) => String(i + 1)));
    const stray = texts.filter((text) => !numbers.has(text) && !own.some((pattern) => pattern.test(text)) && !inBook(said, text));
    expect(stray).toEqual([]);
  });

  it('names in the light map the lowest point that the cells know', async () => {
    const made = await making;
    const lowest = made.sheet.reader.row('lowest');
    const drawn = /low (\d+)<\/text>/.exec(made.body)?.[1];
    expect(drawn).toBeDefined();
    if (lowest) expect(drawn).toBe(/[\d.]+/.exec(lowest.text)?.[0]);
  });

  it('hands over a scenario that holds where one does, and says first what fails', async () => {
    const made = await making;
    const { reader } = made.sheet;
    const cheapest = reader.named('cheapest')?.text;
    expect(reader.letter).toBe(cheapest);
    const front = made.body.indexOf('<section class="verdict');
    expect(front).toBeGreaterThan(0);
    expect(front).toBeLessThan(made.body.indexOf('class="headlines"'));
    for (const letter of reader.letters) {
      const one = await makeFrom(made.session, letter);
      const verdict = section(one.body, 'verdict');
      const failing = one.sheet.reader.checks.filter((check) => check.state === 'fails' && !check.at.row.strong);
      for (const check of failing) expect(textOf(verdict), letter).toContain(`${check.label}: ${check.text}`);
      expect(textOf(verdict).includes('This plan fails')).toBe(failing.length > 0);
    }
  });

  it('is one file that fetches nothing', async () => {
    const made = await making;
    for (const paper of ['A4', 'letter'] as const) {
      const file = made.file(paper);
      expect(file).not.toMatch(/https?:|<script|<link|<img|<iframe|\s(?:src|href|style|on\w+)=|@import/i);
      for (const [, address] of file.matchAll(/url\(([^)]*)\)/g)) expect(address?.slice(0, 30)).toMatch(/^(?:data:font\/woff2;base64,|#sheet-)/);
      expect(file).toContain(`size: ${paper};`);
    }
  });

  it('says of every given who said so, once', async () => {
    const made = await making;
    const rests = section(made.body, 'rests');
    const { book } = made.session;
    // A wire has one size: the gauge stands there only where one is chosen.
    const unused = made.sheet.reader.named('wire_gauge')?.value.kind === 'number' ? 'wire_area' : 'wire_gauge';
    for (const table of book.tables.filter((t) => t.form === 'brief' || (t.form === 'plain' && t.id !== 'sheet'))) {
      for (const [r, row] of table.rows.entries()) {
        if (row.kind !== 'given') continue;
        const address = `${table.name}.A${r + 1}`;
        expect(placeIn(table, 0, r)?.row.source, address).toBeTruthy();
        // A rate that is none has no bearing on the plan, nor whether rows count that there are none of.
        const none = row.source === 'default: none' && /^no(?:ne)?$/.test(placeIn(table, 0, r)?.cell?.content ?? '');
        expect(
          marked(rests, 'data-cell').filter(({ target }) => target === address),
          address,
        ).toHaveLength(row.id === unused || none ? 0 : address === made.sheet.reader.named('crop')?.address ? 2 : 1);
      }
    }
  });

  it('has cautions, what is not calculated, room to sign, and the working of its headline results', async () => {
    const { body } = await making;
    expect(textOf(section(body, 'cautions'))).toMatch(
      /planning estimate[\s\S]*licensed electrician[\s\S]*installer[\s\S]*do not stare[\s\S]*residual-current[\s\S]*foliage[\s\S]*ladders/,
    );
    expect(textOf(section(body, 'not'))).toContain('Not calculated here');
    expect(textOf(section(body, 'signing'))).toContain('For the client');
    expect(textOf(section(body, 'workings')).match(/= /g)?.length).toBeGreaterThan(20);
  });
});

/** Whether a text, or each piece of it between the values it was built around, stands in the book. */
const inBook = (said: string, text: string): boolean => {
  const quoted = JSON.stringify(text).slice(1, -1);
  const lower = said.toLowerCase();
  return (
    lower.includes(quoted.toLowerCase()) ||
    quoted.split(/[,;:]\s*/).every((piece) => !/\d/.test(piece) || lower.includes(piece.trim().replace(/\.$/, '').toLowerCase()))
  );
};

describe('the sheet', () => {
  it('lets nothing that a book says become markup or style', async () => {
    const nasty = '"><img src=x onerror=alert(1)></style><script>alert(2)</script> \\a9 & “Co”\n';
    const start = templateBook('trade-bench');
    const book = withCell({ ...start, client: nasty, title: `Bench ${nasty}` }, 'sheet', 'site', nasty);
    const made = await make(book);
    const file = made.file();
    expect(file.match(/<\/style>/g)).toHaveLength(1);
    expect(file).not.toMatch(/<script|<img/i);
    expect(textOf(made.body)).toContain(nasty.trim());
    expect(marked(made.body, 'data-cell').find(({ target }) => target === 'Sheet.A1')?.text).toBe(nasty);
    made.session.close();
  });

  it('shows what nobody has answered as unknown, among what the plan rests on, and leaves it out of the lines that it would stand in', async () => {
    const start = { ...templateBook('trade-bench'), client: '' };
    const unsaid = ['site', 'plan_date', 'plan_until'].reduce((book, id) => withCell(book, 'sheet', id, ''), start as Book);
    const made = await make(withCell(unsaid, 'electrics', 'hang_rating', ''));
    const rests = textOf(section(made.body, 'rests'));
    expect(rests).toMatch(/Not answered yet\s*Working load of a hanger and its fixing/);
    expect(textOf(section(made.body, 'verdict'))).toMatch(/can’t be judged yet[\s\S]*Not known:[\s\S]*Hanging load: unknown/);
    const front = textOf(made.body.slice(0, made.body.indexOf('<section class="granted'))).replace(/\s+/g, ' ');
    expect(front).toMatch(/Version 1\. Book [0-9a-f]{8}\./);
    expect(front).not.toMatch(/(?:Client|Site|of|until):? (?:unknown|not answered yet)/);
    expect(front).not.toMatch(/, valid until|prices valid until|Client:|Site:/);
    expect(front).toContain('Nobody has said who the client is.');
    expect(front).toMatch(/still to be asked.*: .*Site.*Prices and plan valid until/);
    made.session.close();
  });

  it('says what holds only if an assumption does, which checks it lacks, and which scenario could not be ranked', async () => {
    const start = templateBook('trade-bench');
    const assumed = withCell(start, 'scenarios', 'c_height', '=CHECK.AT.MOST(A7,"unknown",0,UNIT(2,"m"),"a room of 2 m")');
    const book: Book = {
      ...assumed,
      template: { slug: 'trade-bench', edition: 1, lacks: { checks: ['Cores', 'Shade'], older: ['Drop'] } },
    };
    const made = await make(book, 'A');
    expect(textOf(made.body)).toContain('It lacks 2 checks of the present one: Cores, Shade. 1 check works by older rules: Drop.');
    expect(textOf(section(made.body, 'verdict'))).toContain('2 checks lacking, 1 by older rules');
    expect(textOf(section(made.body, 'verdict'))).toMatch(
      /Holds only if what is assumed is so:[\s\S]*Height: assumed, 85 % under; limit assumed: a room of 2 m/,
    );
    made.session.close();
    // What B costs can't be worked out.
    const unpriced = await make(withCell(start, 'scenarios', 'annual', '=1/0', 'b'));
    expect(textOf(section(unpriced.body, 'compared'))).toMatch(/not ranked, as not all of it can be worked out: B/);
    unpriced.session.close();
  });

  it('says how many questions are open and which answers stand there only to begin with, until they are asked', async () => {
    const begun = begin(templateBook('trade-bench'), { client: 'Two sisters', date: '2027-01-08' });
    if (isRefused(begun)) throw new Error(begun.message);
    const asked = begun.pages.flatMap((page) => questionsOn(begun, page));
    const left = asked.filter(isLeft).map(addressOf);
    const fresh = await make(begun);
    const front = textOf(fresh.body.slice(0, fresh.body.indexOf('<section class="confirm'))).replace(/\s+/g, ' ');
    expect(left.length).toBeGreaterThan(5);
    expect(front).toContain(`${left.length} of ${asked.length} questions are still to be asked`);
    for (const label of ['Breaker', 'Circuits that may be used', 'Spare power', 'Electricity']) expect(front).toContain(`; ${label}`);
    expect(front).toContain('Version 1 of 2027-01-08, valid until 2027-04-08');
    expect(front).not.toMatch(/Polytunnel|2026/);
    // What is planned comes before what is still to be asked.
    expect(front.indexOf('Cost to buy')).toBeLessThan(front.indexOf('still to be asked'));
    // Which they are.
    const open = textOf(section(fresh.body, 'rests'));
    for (const label of ['Breaker', 'Circuits that may be used']) expect(open.slice(open.indexOf('Not answered yet'))).toContain(label);
    expect(textOf(section(fresh.body, 'checks'))).toMatch(/Circuits free\s*(?:assumed|fails|close to limit)[^;]*; limit assumed: 2 of 16 A/);
    fresh.session.close();

    const answered = left.reduce((book, address) => {
      const at = placeOf(book, address);
      const content = at?.cell?.content ? undefined : { Sheet: 'By the door', Electrics: address === 'Electrics.A12' ? '16 A' : '2' }[at?.table.name ?? ''];
      const given = content === undefined ? book : apply(book, done(setCell(book, { address, content })));
      return apply(given, done(setSource(given, { address, teller: 'client', how: '' })));
    }, begun);
    const agreed = await make(answered);
    expect(textOf(agreed.body)).not.toMatch(/still to be asked|not agreed\)|limit assumed: 2 of/);
    agreed.session.close();
  });

  it('says why a value is refused, once in each list, and ranks nothing that can’t be worked out', async () => {
    const made = await make(withCell(templateBook('trade-bench'), 'brief', 'crop', 'a crop of their own'));
    const reason = 'Crop: “a crop of their own” is not one of the choices';
    for (const name of ['verdict', 'light', 'compared']) expect(textOf(section(made.body, name)).split(reason), name).toHaveLength(2);
    expect(textOf(section(made.body, 'light'))).toMatch(/DLI aimed at[^:]*: Crop: “a crop of their own”/);
    expect(textOf(section(made.body, 'compared'))).not.toContain('none of them holds');
    made.session.close();
  });

  it('lists reflecting sides among the parts where the light counts on them, and nowhere else', async () => {
    // A has none, and B sides of clean white.
    const bare = await make(templateBook('rack-of-tiers'), 'A');
    expect(textOf(section(bare.body, 'parts'))).not.toContain('Reflecting sides');
    const white = await makeFrom(bare.session, 'B');
    expect(textOf(section(white.body, 'parts'))).toMatch(/Reflecting sides\s*along every edge, returning 0\.70 of the light/);
    bare.session.close();
  });

  it('ranks no scenario where none holds, and hands over the base with what fails', async () => {
    const start = templateBook('trade-bench');
    const made = await make(withCell(start, 'assumptions', 'evenness_asked', '0.99'));
    expect(made.sheet.reader.letter).toBe('A');
    expect(textOf(section(made.body, 'compared'))).toContain('none of them holds, so none is ranked');
    expect(textOf(made.body)).toContain('None holds; scenario A is shown.');
    const wished = await makeFrom(made.session, 'A');
    expect(textOf(wished.body)).toMatch(/\. Scenario A\./);
    expect(textOf(wished.body)).not.toContain('is shown.');
    expect(textOf(section(made.body, 'verdict'))).toContain('This plan fails');
    made.session.close();
  });

  it('follows the units in which the book is shown', async () => {
    const start = templateBook('trade-bench');
    const change = setMeasures(start, { measures: 'US customary' });
    if (isRefused(change)) throw new Error(change.message);
    const made = await make(apply(start, change));
    for (const { target, text } of marked(made.body, 'data-cell')) expect(text, target).toBe(onPage(made, target));
    const plan = section(made.body, 'plan');
    expect(marked(plan, 'data-cell').map(({ text }) => text.replace(/\s/g, ' '))).toEqual(['11′ 9 3/4″', '4′ 11″']);
    // A scale that a tape has: so many feet for each inch of paper.
    for (const name of ['plan', 'side']) expect(textOf(section(made.body, name))).toMatch(/1 in = \d+ (?:ft|in), /);
    expect(textOf(made.body)).not.toMatch(/\b1 : \d/);
    // 3.6 m are 141.73 in and 1.5 m 59.06 in; 1.32 m between the middles of two lights are 51.97 in.
    expect(marked(plan, 'data-from').map(({ text }) => text.replace(/\s/g, ' '))).toContain('4′ 4″');
    made.session.close();
  });

  it('says every length of a drawing in one unit, and which, where cells have several', async () => {
    // 1.5 m are 59.06 in, 0.25 m 9.84 in and 0.9 m 35.43 in.
    const book = withCell(withCell(templateBook('trade-bench'), 'brief', 'bench_length', '12 ft'), 'brief', 'highest_mount', '0.9 m');
    const inches = withCell(book, 'scenarios', 'height', '12 in', 'b');
    const shown = inches.tables.map(
      (t): Table => ({
        ...t,
        rows: t.rows.map((row) => (row.id === 'bench_length' ? { ...row, unit: 'ft' } : row.id === 'height' ? { ...row, unit: 'in' } : row)),
      }),
    );
    const made = await make({ ...inches, tables: shown }, 'B');
    const texts = (name: string) => {
      const of = section(made.body, name);
      return [...marked(of, 'data-cell'), ...marked(of, 'data-from')].map(({ text }) => text.replace(/\s/g, ' '));
    };
    expect(texts('plan')).toEqual(expect.arrayContaining(['12′ 0″', '4′ 11″']));
    expect(texts('plan').filter((text) => !/″$/.test(text))).toEqual([]);
    expect(textOf(section(made.body, 'plan'))).toMatch(/lengths in feet/);
    expect(textOf(section(made.body, 'plan')), 'the bar to measure against, too').not.toMatch(/\d\s(?:m|cm)\b/);
    expect(texts('side')).toEqual(expect.arrayContaining(['9 7/8 in', '35 3/8 in']));
    expect(texts('side').filter((text) => !/^[\d /]+ in$/.test(text))).toEqual([]);
    expect(textOf(section(made.body, 'side'))).toMatch(/lengths in inches/);
    made.session.close();
  });

  it('dimensions the lights as the layout says, and plans the readings that plain quadrature gives', async () => {
    const made = await make(templateBook('trade-bench'), 'A');
    // Scenario A by hand: three by six of 122 µmol/s over 3.6 by 1.5 m, spread 1.1 by 1.2, hung at 0.3 m, not dimmed.
    const first = (size: number, spread: number, n: number): number => size / 2 + spread * (0.5 / n - 0.5) * size;
    const expected = [first(3.6, 1.1, 3), (1.1 * 3.6) / 3, first(1.5, 1.2, 6), (1.2 * 1.5) / 6];
    const dims = marked(section(made.body, 'plan'), 'data-from').map(({ text }) => Number(/[\d.]+/.exec(text)?.[0]));
    for (const [i, x] of expected.filter((length) => length > 0).entries()) expect(dims[i]).toBeCloseTo(x, 3);
    const [ofSquares = 0, ...readings] = marked(section(made.body, 'grids'), 'data-from').map(({ text }) => Number(text));
    const arrangement = {
      output: 122,
      faceLength: 1.15,
      faceWidth: 0.06,
      beam: 120,
      along: 3,
      across: 6,
      length: 3.6,
      width: 1.5,
      spreadAlong: 1.1,
      spreadAcross: 1.2,
    };
    const plain = plainField(arrangement, 0.3, 9, 4);
    const seenFromAbove = Array.from({ length: 4 }, (_, j) => plain.slice((3 - j) * 9, (4 - j) * 9)).flat();
    expect(readings).toHaveLength(36);
    // What the readings are held against is what is planned where they are taken, whatever the bench’s own mean is.
    expect(Math.abs(ofSquares - plain.reduce((sum, value) => sum + value, 0) / 36)).toBeLessThanOrEqual(0.501);
    for (const [i, value] of seenFromAbove.entries()) expect(Math.abs((readings[i] ?? 0) - value)).toBeLessThanOrEqual(0.501);
    made.session.close();
  });

  it('names each scenario that is asked for, whatever its case', async () => {
    const made = await make(templateBook('trade-bench'), 'c');
    expect(made.sheet.reader.letter).toBe('C');
    expect(textOf(section(made.body, 'verdict'))).toMatch(/This plan fails[\s\S]*Evenness: fails, 56 % below the least/);
    made.session.close();
  });
});
