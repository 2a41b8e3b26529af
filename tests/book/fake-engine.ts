/** An engine that follows formulas which only point at a cell, and can be told to wait or to fail. It shares no code with the real one. */
import { cellAt } from '../../src/book/address.ts';
import type { Book } from '../../src/book/book.ts';
import type { Change } from '../../src/book/change.ts';
import type { Engine, Reading, Value, Values } from '../../src/engine/types.ts';

const letters = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

export function freshValues(book: Book): Record<string, Value> {
  const values: Record<string, Value> = {};
  for (const table of book.tables) {
    const name = /^\w+$/.test(table.name) ? table.name : `'${table.name.replaceAll("'", "''")}'`;
    for (const [r, row] of table.rows.entries()) {
      for (const [c, column] of table.columns.entries()) {
        const content = table.cells[row.id]?.[column.id]?.content ?? '';
        if (content === '') continue;
        const target = content.startsWith('=') ? content.slice(1) : undefined;
        const pointed = target === undefined ? undefined : cellAt(book, target.includes('.') ? target : `${name}.${target}`)?.cell?.content;
        values[`${name}.${letters[c]}${r + 1}`] = { kind: 'text', text: pointed ?? content };
      }
    }
  }
  return values;
}

export class FakeEngine implements Engine {
  calls: string[] = [];
  /** How many of the next calls fail. */
  failures = 0;
  /** While set, every call waits for it. */
  gate: Promise<void> = Promise.resolve();
  closed = false;
  #values: Record<string, Value> = {};
  #broken = true;

  async load(book: Book): Promise<Values> {
    this.calls.push('load');
    await this.#work();
    this.#broken = false;
    this.#values = freshValues(book);
    return { ...this.#values };
  }

  async apply(changes: readonly Change[], book: Book): Promise<Values> {
    this.calls.push(`apply ${changes.map((change) => change.label).join(' | ')}`);
    await this.#work();
    if (this.#broken) throw new Error('It was not loaded.');
    const fresh = freshValues(book);
    const differ: Record<string, Value> = {};
    for (const address of new Set([...Object.keys(fresh), ...Object.keys(this.#values)])) {
      if (JSON.stringify(fresh[address]) !== JSON.stringify(this.#values[address])) differ[address] = fresh[address] ?? { kind: 'blank' };
    }
    this.#values = fresh;
    return differ;
  }

  async read(address: string, typed: string): Promise<Reading> {
    this.calls.push(`read ${address} ${typed}`);
    await this.#work();
    if (typed === '=nonsense') return { ok: false, message: 'That is nonsense.', mend: { label: 'Write sense' } };
    return { ok: true, content: typed.toUpperCase(), typed, said: `read as ${typed.toUpperCase()}` };
  }

  async editable(address: string): Promise<string> {
    await this.#work();
    const value = this.#values[address];
    return value?.kind === 'text' ? value.text : '';
  }

  trace(): never {
    throw new Error('not asked for here');
  }
  feeds(): never {
    throw new Error('not asked for here');
  }
  evaluate(): never {
    throw new Error('not asked for here');
  }
  evaluateWithSteps(): never {
    throw new Error('not asked for here');
  }
  preview(): never {
    throw new Error('not asked for here');
  }
  functions(): never {
    throw new Error('not asked for here');
  }
  signatures(): never {
    throw new Error('not asked for here');
  }

  givensOf(): never {
    throw new Error('not asked for here');
  }
  back(): never {
    throw new Error('not asked for here');
  }
  field(): never {
    throw new Error('not asked for here');
  }

  close(): void {
    this.closed = true;
  }

  async #work(): Promise<void> {
    await this.gate;
    if (this.failures > 0) {
      this.failures--;
      this.#broken = true;
      throw new Error('It ran too long.');
    }
  }
}
