/** The engine in-process: for Node, for tests, and inside the worker. */
import { functions } from '../../functions/index.ts';
import type { Book } from '../book/book.ts';
import { readPlain } from '../book/read-plain.ts';
import type { Position } from './addresses.ts';
import { commit } from './commit-formula.ts';
import { editableContent } from './formula-text.ts';
import { pictureField } from './picture.ts';
import { preview } from './preview.ts';
import { feeds } from './relations.ts';
import { signatures } from './signatures.ts';
import type { Address, Engine, Reading, Value } from './types.ts';
import { type Life, Workbook } from './workbook.ts';
import { Tracer } from './working/index.ts';

/** In the same process values can be taken one after the other: a worker hands over those of a large book so. */
export interface LocalEngine extends Engine {
  /** What `load` does, with every value as it is asked for. Nothing else may be asked of the engine before the last. */
  loaded(book: Book): Iterable<readonly [Address, Value]>;
  /** Makes the copy on which is worked back: whoever has asked for the givens is about to ask that. */
  copy(): Promise<void>;
}

/** A worker passes `life` to show that it is at work; see serve.ts. */
export function createEngine(life: Life = {}): LocalEngine {
  const workbook = new Workbook(life);
  let working: ReturnType<typeof backwards> | undefined;
  const workingBack = (): ReturnType<typeof backwards> => {
    working ??= backwards(life).catch(() => {
      // It is fetched once more when it is next asked for.
      working = undefined;
      throw new Error('What works back could not be fetched.');
    });
    return working;
  };
  return {
    load: async (book) => workbook.load(book),
    loaded: (book) => workbook.loaded(book),
    apply: async (changes, book) => workbook.apply(changes, book),
    read: async (address, typed) => read(workbook, workbook.at(address), typed),
    editable: async (address) => {
      const cell = workbook.sheets.cell(workbook.at(address));
      return cell?.typed ?? editableContent(cell?.content ?? '', workbook.currency);
    },
    trace: async (address) => new Tracer(workbook).trace(workbook.at(address)),
    feeds: async (address) => feeds(workbook, workbook.at(address)),
    evaluate: async (formula) => {
      const committed = commit(workbook, workbook.scratch, asFormula(formula));
      return 'content' in committed ? workbook.once(committed.content, committed.kind) : { kind: 'error', ...committed };
    },
    evaluateWithSteps: async (formula) => {
      const committed = commit(workbook, workbook.scratch, asFormula(formula));
      if ('content' in committed) return workbook.withFormula(committed.content, (at) => new Tracer(workbook).trace(at));
      return { row: '', column: '', kind: 'worked', value: { kind: 'error', ...committed }, formula: asFormula(formula), steps: [], from: [] };
    },
    preview: async (address, formula) => preview(workbook, workbook.at(address), asFormula(formula)),
    functions: async () => functions.map(({ work: _, ...card }) => card),
    signatures: async () => [...signatures.values()],
    field: async (layout, height, nx, ny, scale) => pictureField(layout, height, nx, ny, scale),
    givensOf: async (address) => (await workingBack()).givensOf(workbook, workbook.at(address)),
    back: async (asked, waiting) => {
      const { copy } = await workingBack();
      const { book } = workbook.sheets;
      return book ? copy.back(book, asked, waiting) : { ok: false, message: 'No book is open.' };
    },
    copy: async () => {
      const { copy } = await workingBack();
      if (workbook.sheets.book) copy.of(workbook.sheets.book);
    },
    close: () => {
      void working?.then(({ copy }) => copy.close()).catch(() => {});
      workbook.hyper.dispose();
    },
  };
}

/** What works a book backwards is fetched when it is first asked for: few open a book for that. */
async function backwards(life: Life) {
  const { Copy, givensOf } = await import('./back/index.ts');
  return { copy: new Copy(life), givensOf };
}

const asFormula = (text: string): string => (text.trimStart().startsWith('=') ? text.trim() : `=${text.trim()}`);

function readFormula(workbook: Workbook, at: Position, typed: string): Reading {
  const committed = commit(workbook, at, typed);
  if (!('content' in committed)) return { ok: false, message: committed.message };
  const { content, said } = committed;
  return { ok: true, content, ...(said !== undefined && { said }) };
}

/** What typed text would become in a cell. */
function read(workbook: Workbook, at: Position, typed: string): Reading {
  if (typed.trimStart().startsWith('=')) return readFormula(workbook, at, typed);
  const { book } = workbook.sheets;
  const place = workbook.sheets.inBook(at);
  if (!book || !place) return { ok: false, message: `There is no cell ${workbook.sheets.address(at)} in this book.` };
  return readPlain(book, place, typed, workbook.shownUnit(at));
}
