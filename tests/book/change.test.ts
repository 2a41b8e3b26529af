import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apply, prepare } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { canonicalText } from '../../src/book/canonical.ts';
import type { Change } from '../../src/book/change.ts';
import { checkBook } from '../../src/book/check.ts';
import { NO_HISTORY, redo, remember, undo } from '../../src/book/history.ts';
import { invert } from '../../src/book/invert.ts';
import { squash } from '../../src/book/squash.ts';
import { runs } from '../cases.ts';
import { book, command, played } from './arbitrary.ts';
import { sample } from './sample.ts';

const commands = fc.array(command, { minLength: 1, maxLength: 12 });

describe('a change', () => {
  it('is undone by its inverse, to the same text, and inverting twice is doing nothing', () => {
    fc.assert(
      fc.property(book, command, (before, run) => {
        const step = played(before, run);
        if (!step) return;
        expect(apply(step.book, invert(step.change))).toEqual(before);
        expect(canonicalText(apply(step.book, invert(step.change)))).toBe(canonicalText(before));
        expect(invert(invert(step.change))).toEqual(step.change);
      }),
      runs(3000, 1),
    );
  });

  it('squashed with the next one does what both do, and its inverse undoes both', () => {
    fc.assert(
      fc.property(book, command, command, (before, one, two) => {
        const first = played(before, one);
        const second = first && played(first.book, two);
        if (!first || !second) return;
        const both = squash(first.change, second.change);
        expect(apply(before, both)).toEqual(second.book);
        expect(apply(second.book, invert(both))).toEqual(before);
      }),
      runs(3000, 2),
    );
  });

  it('never writes on the book it is applied to, and is plain data', () => {
    fc.assert(
      fc.property(book, command, (before, run) => {
        const text = JSON.stringify(before);
        const step = played(before, run);
        expect(JSON.stringify(before)).toBe(text);
        if (step) expect(apply(before, JSON.parse(JSON.stringify(step.change)) as Change)).toEqual(step.book);
      }),
      runs(1000, 3),
    );
  });

  it('gives the same book where it may write on the one before, and leaves a table alone whose cells are those of another too', () => {
    fc.assert(
      fc.property(book, command, (before, run) => {
        const step = played(before, run);
        if (step) expect(apply(structuredClone(before), step.change, true)).toEqual(step.book);
      }),
      runs(500, 13),
    );
    const cells = { r: { c: { content: '1' } } };
    const like = (id: string) => ({ id, name: id, form: 'plain' as const, columns: [{ id: 'c' }], rows: [{ id: 'r' }], cells });
    const two = { ...sample, tables: [like('t1'), like('t2')] };
    const edit = { at: 'cell' as const, table: 't1', row: 'r', column: 'c', before: { content: '1' }, after: { content: '2' } };
    const after = apply(two, { label: 'one', edits: [edit] }, true);
    expect(after.tables.map((table) => table.cells.r?.c?.content)).toEqual(['2', '1']);
  });

  it('made by a command leaves a book that passes the check', () => {
    fc.assert(
      fc.property(book, (made) => {
        const checked = checkBook(JSON.parse(JSON.stringify(made)));
        expect(checked.ok ? [] : checked.problems).toEqual([]);
      }),
      runs(2000, 4),
    );
  });

  it('shares with the book before it what it does not touch', () => {
    const change: Change = {
      label: '',
      edits: [{ at: 'cell', table: 'brief', row: 'r1', column: 'c1', before: { content: '3.6 m', source: 'client' }, after: { content: '4 m' } }],
    };
    const after = apply(sample, change);
    expect(after.tables[1]).toBe(sample.tables[1]);
    expect(after.pages).toBe(sample.pages);
    expect(after.tables[0]?.cells.r2).toBe(sample.tables[0]?.cells.r2);
    expect(after.tables[0]?.cells.r1).not.toBe(sample.tables[0]?.cells.r1);
  });

  it('of a cell goes through none of the rows of a large table that was made ready, and through all of one that was not; both give the same book', () => {
    let read = 0;
    const lines = Array.from({ length: 600 }, (_, i) => ({ id: `r${i}` }));
    const filled = (content: string) => Object.fromEntries(lines.map(({ id }) => [id, { c: { content } }]));
    const cells = new Proxy(filled('1'), {
      ownKeys: (target) => {
        read++;
        return Reflect.ownKeys(target);
      },
    });
    const before: Book = { ...sample, tables: [{ id: 't', name: 'T', form: 'list', columns: [{ id: 'c' }], rows: lines, cells }] };
    const change = (row: string, after: string): Change => ({
      label: '',
      edits: [{ at: 'cell', table: 't', row, column: 'c', before: { content: '1' }, after: { content: after } }],
    });
    const copied = apply(before, change('r7', '2'));
    expect(read).toBe(1);
    prepare(before);
    prepare(before);
    expect(read).toBe(2);
    const made = apply(before, change('r7', '2'));
    expect(read).toBe(2);
    expect(made).toEqual(copied);
    expect(cells.r7).toEqual({ c: { content: '1' } });
    // What was made ready serves one change; the next of the same book starts from the book again.
    expect(apply(before, change('r8', '3')).tables[0]?.cells).toEqual({ ...filled('1'), r8: { c: { content: '3' } } });
    // Nor does it serve where the record itself was written on meanwhile.
    prepare(made);
    const own = apply(made, change('r9', '4'), true);
    expect(apply(own, change('r10', '5')).tables[0]?.cells).toMatchObject({
      r7: { c: { content: '2' } },
      r9: { c: { content: '4' } },
      r10: { c: { content: '5' } },
    });
  });

  it('made for another book is refused aloud', () => {
    expect(() => apply(sample, { label: '', edits: [{ at: 'row', table: 'brief', index: 0, before: { id: 'r9' }, after: null }] })).toThrow(
      /r9 is not at place 0/,
    );
    expect(() => apply(sample, { label: '', edits: [{ at: 'row', table: 'gone', index: 0, before: null, after: { id: 'r9' } }] })).toThrow(
      /not in the book: gone/,
    );
  });
});

describe('squash', () => {
  const cell = (before: string | null, after: string | null): Change => ({
    label: 'Hours',
    edits: [
      {
        at: 'cell',
        table: 'brief',
        row: 'r3',
        column: 'c1',
        before: before === null ? null : { content: before },
        after: after === null ? null : { content: after },
      },
    ],
  });

  it('makes one edit of two on the same cell, and none of a there and back', () => {
    expect(squash(cell('1', '2'), cell('2', '3'))).toEqual(cell('1', '3'));
    expect(squash(cell('1', '2'), cell('2', '1')).edits).toEqual([]);
  });
});

describe('the history', () => {
  it('undoes all to the first text and redoes all to the last, in between too', () => {
    fc.assert(
      fc.property(commands, (runs) => {
        let now: Book = sample;
        let history = NO_HISTORY;
        const texts = [canonicalText(now)];
        for (const run of runs) {
          const step = played(now, run);
          if (!step) continue;
          now = step.book;
          history = remember(history, step.change);
          texts.push(canonicalText(now));
        }
        // What is kept with the book comes back from a file or a store.
        history = JSON.parse(JSON.stringify(history)) as typeof history;
        const seen = [canonicalText(now)];
        for (let back = undo(history); back; back = undo(history)) {
          now = apply(now, back.change);
          history = back.history;
          seen.push(canonicalText(now));
        }
        expect(seen).toEqual([...texts].reverse());
        for (let on = redo(history); on; on = redo(history)) {
          now = apply(now, on.change);
          history = on.history;
        }
        expect(canonicalText(now)).toBe(texts.at(-1));
      }),
      runs(500, 5),
    );
  });

  it('forgets what was undone once something else is done', () => {
    const change = (label: string): Change => ({ label, edits: [] });
    const back = undo(remember(remember(NO_HISTORY, change('one')), change('two')));
    expect(back && remember(back.history, change('three'))).toEqual({ done: [change('one'), change('three')], undone: [] });
  });

  it('keeps the last thousand changes, and the last one whatever its size', () => {
    let history = NO_HISTORY;
    for (let i = 0; i < 1005; i++) history = remember(history, { label: String(i), edits: [] });
    expect(history.done.length).toBe(1000);
    expect(history.done[0]?.label).toBe('5');
    const edit = { at: 'name', name: 'x', before: null, after: null } as const;
    const huge: Change = { label: 'huge', edits: Array.from({ length: 300_000 }, () => edit) };
    expect(remember(history, huge).done.map((c) => c.label)).toEqual(['huge']);
  });
});
