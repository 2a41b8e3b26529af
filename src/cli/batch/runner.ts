/** One client after another: the formulas between the givens that the file has and the results are compiled once, and asked for each. */
import { createHash } from 'node:crypto';
import { join } from 'node:path';
import { readQuantity } from '../../../functions/quantity-text.ts';
import { type At, cellAt } from '../../book/address.ts';
import { meantChoice, notAllowed } from '../../book/allowed.ts';
import { apply } from '../../book/apply.ts';
import type { Book } from '../../book/book.ts';
import type { Edit } from '../../book/change.ts';
import { cellEdit } from '../../book/commands/set-cell.ts';
import { addressOf, titleOf, unitOf } from '../../book/look-up.ts';
import { allTogether, editedAt, pickedTogether } from '../../book/misfits.ts';
import { Sweeper } from '../../engine/cone/index.ts';
import type { Address, Value, Values } from '../../engine/types.ts';
import { formatBook } from '../../files/book/index.ts';
import { formatCsv, unguard } from '../../files/csv/index.ts';
import { deliver } from '../output.ts';
import { type Form, failuresOf, headingsOf, type Results, recordsOf, resultsOf, withReasons } from './results.ts';
import type { Target } from './targets.ts';

/** All that a worker needs to know; plain data. */
export interface Setup {
  readonly template: Book;
  readonly targets: readonly Target[];
  readonly decimalMark: '.' | ',';
  readonly work: 'results' | 'proposals';
  readonly form: Form;
  /** Folder for each client's book, or undefined. */
  readonly books: string | undefined;
}

export interface Client {
  /** Its number among the records, from 1. */
  readonly row: number;
  readonly line: number;
  readonly fields: readonly string[];
}

export type Ran = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly reason: string };

export class Runner {
  /** Readings that deserve a word: "12 in a row of shares read as 12 %". */
  readonly said: string[] = [];
  protected readonly setup: Setup;
  protected readonly sweeper: Sweeper;
  private readonly results: Results;
  private readonly asked: readonly Address[];
  protected book: Book;
  /** Addresses of the answers in question that are picked together, the ones that follow among them. */
  private readonly picks: ReadonlySet<string>;
  /** Addresses of all givens in which clients may differ. */
  private readonly varied: ReadonlySet<Address>;

  constructor(setup: Setup) {
    this.setup = setup;
    this.sweeper = new Sweeper(setup.template);
    this.book = setup.template;
    this.results = resultsOf(setup.template, this.sweeper.values);
    this.asked = this.results.scenarios.flatMap(({ results }) => results.map(({ address }) => address));
    this.picks = new Set(
      setup.targets.flatMap((target) => {
        const at = target.to === 'given' ? cellAt(setup.template, target.address) : undefined;
        return at ? pickedTogether(setup.template, at).map(addressOf) : [];
      }),
    );
    this.varied = new Set([...setup.targets.flatMap((target) => (target.to === 'given' ? [target.address] : [])), ...this.picks]);
  }

  headings(): string {
    return formatCsv([[...this.ownHeadings, ...headingsOf(this.results, this.setup.form)]]);
  }

  /** Of what stands before the results of a client. */
  protected get ownHeadings(): readonly string[] {
    const own = this.setup.targets.flatMap((target) => (target.to === 'client' ? ['client'] : target.to === 'results' ? [target.heading] : []));
    return [...(this.named ? [] : ['row']), ...own];
  }

  protected ownFields(client: Client): readonly (string | number)[] {
    const own = this.setup.targets.flatMap((target, i) => (target.to === 'client' || target.to === 'results' ? [unguard(client.fields[i] ?? '')] : []));
    return this.named ? own : [client.row, ...own];
  }

  /** Where clients have names no number stands before their results: it would count within a piece of a file that others have split. */
  private get named(): boolean {
    return this.setup.targets.some((target) => target.to === 'client');
  }

  async run(client: Client): Promise<Ran> {
    const reason = this.take(client);
    if (reason !== undefined) return { ok: false, reason };
    const worked = this.worked();
    const failures = failuresOf(this.results, worked);
    // What does not fit one scenario is said there, and the others stand; a client of whom nothing stands has no results.
    if (failures[0] !== undefined && failures.every((failure) => failure !== undefined)) return { ok: false, reason: failures[0] };
    const values = withReasons(this.results, worked, failures);
    if (this.setup.books !== undefined) await this.keepBook(client, this.setup.books, this.book);
    const who = this.ownFields(client);
    return { ok: true, text: formatCsv(recordsOf(this.results, values, this.setup.form).map((record) => [...who, ...record])) };
  }

  /** Makes the book this client's; a text says why it can't be. */
  protected take(client: Client): string | undefined {
    const edits = this.edits(client);
    if (typeof edits === 'string') return edits;
    this.book = apply(this.book, { label: '', edits });
    return undefined;
  }

  /** The givens in which this client may differ from others. */
  protected get givens(): readonly Address[] {
    return [...this.varied].filter((address) => {
      const content = cellAt(this.book, address)?.cell?.content ?? '';
      // What this client leaves to the template's own formula does not vary.
      return !content.startsWith('=') || content !== cellAt(this.setup.template, address)?.cell?.content;
    });
  }

  /** The results of the client whose givens the book holds now. */
  private worked(): Values {
    const { givens } = this;
    const row = givens.map((address) => cellAt(this.book, address)?.cell?.content ?? '');
    const cone = this.sweeper.cone(givens, this.asked);
    cone.put(row);
    const values: Record<Address, Value> = {};
    for (const [i, address] of this.asked.entries()) values[address] = cone.value(i);
    return values;
  }

  /** From the book as the client before left it; a text says what can't be set. */
  private edits(client: Client): readonly Edit[] | string {
    const edits: Edit[] = [];
    /** Answers that others may follow upon, or that follow: how they differ from the template. */
    const picked: Edit[] = [];
    const answered = new Set<string>();
    for (const [i, target] of this.setup.targets.entries()) {
      if (target.to !== 'given') continue;
      const at = cellAt(this.book, target.address);
      const own = cellAt(this.setup.template, target.address);
      if (!at || !own) return `there is no cell ${target.address}`;
      const field = unguard(client.fields[i] ?? '').trim();
      const read = field === '' ? undefined : this.read(field, own, target);
      if (typeof read === 'object') return `${target.heading}: ${read.refused}`;
      const { typed: _, ...kept } = own.cell ?? { content: '' };
      const wanted = read === undefined ? (own.cell ?? null) : { ...kept, content: read };
      if (!this.picks.has(target.address)) edits.push(...cellEdit(at, wanted));
      else {
        picked.push(...cellEdit(own, wanted));
        if (read !== undefined) answered.add(target.address);
      }
    }
    return [...edits, ...this.followed(picked, answered)];
  }

  /** What is picked together goes by the template and this client's answers alone, whoever came before. */
  private followed(picked: readonly Edit[], answered: ReadonlySet<string>): readonly Edit[] {
    if (this.picks.size === 0) return [];
    const { template } = this.setup;
    const said = new Set(
      picked.flatMap((edit) => {
        const at = editedAt(template, edit);
        return at ? [addressOf(at)] : [];
      }),
    );
    const wanted = apply(template, {
      label: '',
      edits: allTogether(template, picked).filter((edit) => {
        const at = editedAt(template, edit);
        const follows = at !== undefined && pickedTogether(template, at)[0]?.row !== at.row;
        return !follows || said.has(addressOf(at)) || !answered.has(addressOf(at));
      }),
    });
    return [...this.picks].flatMap((address) => {
      const [at, then] = [cellAt(this.book, address), cellAt(wanted, address)];
      return at && then ? cellEdit(at, then.cell ?? null) : [];
    });
  }

  /** A field as it is stored. Without a unit of its own it is in its heading's, else in the one that the cell shows. */
  private read(field: string, at: At, target: Target & { to: 'given' }): string | { readonly refused: string } {
    const { currency } = this.setup.template;
    const shown = unitOf(at);
    const wanted = target.unit ?? shown;
    const read = readQuantity(meantChoice(this.book, at, field), {
      currency,
      decimalMark: this.setup.decimalMark,
      ...(wanted !== undefined && { unit: wanted }),
    });
    if (read.kind === 'refused') return { refused: read.message };
    if (read.kind === 'formula') return { refused: 'a formula can not be given here' };
    if (read.kind === 'text' && shown !== undefined && shown !== '')
      return { refused: `“${field}” is not a quantity in ${shown === '1' ? 'plain numbers' : shown}` };
    const problem = notAllowed(this.book, at, read.content);
    if (problem !== undefined) return { refused: problem.replace(`${titleOf(at)}: `, '') };
    if ('said' in read && read.said?.includes(' read as ')) this.said.push(`${target.heading}: ${read.said}`);
    return read.content;
  }

  protected async keepBook({ row, fields }: Client, folder: string, kept: Book): Promise<void> {
    const { template, targets } = this.setup;
    const name = unguard(fields[targets.findIndex((target) => target.to === 'client')] ?? '').trim();
    const slug = name
      .normalize('NFKD')
      .toLowerCase()
      .replaceAll(/[^a-z0-9]+/gu, '-')
      .replaceAll(/^-|-$/gu, '')
      .slice(0, 40);
    // The same client gives the same book in every run, and no two rows give books of one id.
    const id = createHash('sha256')
      .update(JSON.stringify([template.id, row, fields]))
      .digest('hex')
      .slice(0, 32);
    const book: Book = { ...kept, id, client: name.slice(0, 200) || template.client };
    await deliver(formatBook(book), join(folder, `${String(row).padStart(6, '0')}${slug === '' ? '' : `-${slug}`}.json`));
  }
}
