/** What is done with scenarios: the one that the chosen cell is of. */
import { type At, columnText } from '../../book/address.ts';
import { isFormula } from '../../book/content.ts';
import { sameAs } from '../../book/ditto.ts';
import { addressOf, baseColumn, baseOf, columnHeading, rowHeading, standingOf } from '../../book/look-up.ts';
import { refused } from '../../book/refused.ts';
import { bookOpen, type Command, inBook, onCells, type PageState } from './command.ts';
import { controlShift } from './keys.ts';
import { fetchReshaping, move, question, roomFor } from './lines.ts';
import { shapeIn } from './shape.ts';

/** The letter of the scenario that the chosen cell is of. */
const scenario = ({ at }: PageState): string | undefined => (at?.table.form === 'scenarios' ? columnHeading(at) : undefined);

/** The base's letter, where the chosen given is one that could be "same as" it again. */
function couldBeAs({ at }: PageState): string | undefined {
  const base = at && baseOf(at);
  return at && base && standingOf(at) === 'given' ? columnHeading(base) : undefined;
}

const isBeside = (a: At, b: At | undefined): boolean => a.table === b?.table && Math.abs(a.rowIndex - b.rowIndex) + Math.abs(a.columnIndex - b.columnIndex) < 2;

const hasFormula = (at: At | undefined): boolean =>
  at?.table.form === 'scenarios' && at.table.columns.length > 1 && isFormula(at.cell?.content ?? '') && !sameAs(at);

/** The cell whose formula can go into every scenario: the one typed into last, where the next one is chosen since, else the one chosen. */
const forAll = ({ at, typedAt }: PageState): At | undefined => (at ? [typedAt && isBeside(typedAt, at) ? typedAt : undefined, at].find(hasFormula) : undefined);

const rowOf = (at: At | undefined): string => (at ? `: ${rowHeading(at)}` : '');

const chosen = (state: PageState): boolean => shapeIn(state)?.form === 'scenarios';

export const scenarioCommands = [
  {
    id: 'add-scenario',
    label: 'Add a scenario',
    words: 'new column compare variant option copy duplicate',
    when: bookOpen,
    run: inBook(async ({ book, at }) => {
      const table = at?.table.form === 'scenarios' ? at.table : book.tables.find((each) => each.form === 'scenarios');
      if (!table) return [];
      const { addScenario } = await fetchReshaping();
      return addScenario(book, { table: table.id });
    }),
  },
  {
    id: 'drop-scenario',
    label: (state) => `Drop scenario ${scenario(state) ?? ''}`.trim(),
    words: 'delete remove column',
    when: ({ at }) => at?.table.form === 'scenarios' && at.table.columns.length > 1 && at.columnIndex !== baseColumn(at.table),
    run: onCells(async ({ book, at }) => {
      const { dropScenario } = await fetchReshaping();
      return dropScenario(book, { table: at.table.id, column: at.columnIndex });
    }),
  },
  {
    id: 'same',
    label: (state) => `Same as ${couldBeAs(state) ?? 'A'} again`,
    words: 'inherit reset back base scenario',
    when: (state) => couldBeAs(state) !== undefined,
    run: onCells(async ({ book, at }) => {
      const { sameAsBase } = await fetchReshaping();
      return sameAsBase(book, { address: addressOf(at) });
    }),
  },
  {
    id: 'fill-scenarios',
    label: (state) => `The same formula in every scenario${rowOf(forAll(state))}`,
    words: 'fill across columns all repeat formula',
    keys: 'Ctrl Shift F',
    presses: (e) => controlShift(e, 'f'),
    when: (state) => forAll(state) !== undefined,
    run: inBook(async (state) => {
      const at = forAll(state);
      return at ? (await fetchReshaping()).fillScenarios(state.book, { address: addressOf(at) }) : [];
    }),
  },
  {
    id: 'base',
    label: (state) => `Compare the others with ${scenario(state) ?? 'this scenario'}`,
    words: 'base reference difference',
    when: (state) => scenario(state) !== undefined,
    run: onCells(({ at }) => {
      if (at.table.form !== 'scenarios') return refused('Choose a cell of the scenario first.');
      const before = at.table.base === undefined ? {} : { base: at.table.base };
      return {
        label: `Compared with ${at.column.label ?? 'another scenario'}`,
        edits: [{ at: 'table fields', table: at.table.id, before, after: { base: at.column.id } }],
      };
    }),
  },
] as const satisfies readonly Command[];

/** Of a scenario as a column among others. */
export const scenarioColumnCommands = [
  {
    id: 'scenario-name',
    label: (state) => `Name scenario ${scenario(state) ?? ''} …`,
    words: 'rename label column',
    when: chosen,
    run: onCells(async ({ at, area }) => {
      const { setHeading } = await fetchReshaping();
      return question(`Name scenario ${columnHeading(at) || columnText(at.columnIndex)}`, columnHeading(at), (book, label) =>
        setHeading(book, { table: area.table, axis: 'column', at: at.columnIndex, label }),
      );
    }),
  },
  {
    id: 'scenario-copy',
    label: (state) => `Copy scenario ${scenario(state) ?? ''}`,
    words: 'duplicate new column variant',
    when: chosen,
    run: onCells(async ({ book, area }) => {
      const { copyScenario } = await fetchReshaping();
      return copyScenario(book, { table: area.table, column: area.column });
    }),
  },
  {
    id: 'scenario-earlier',
    label: (state) => `Move scenario ${scenario(state) ?? ''} left`,
    words: 'reorder column',
    when: (state) => chosen(state) && roomFor(state, 'column', -1),
    run: move('column', -1),
  },
  {
    id: 'scenario-later',
    label: (state) => `Move scenario ${scenario(state) ?? ''} right`,
    words: 'reorder column',
    when: (state) => chosen(state) && roomFor(state, 'column', 1),
    run: move('column', 1),
  },
] as const satisfies readonly Command[];
