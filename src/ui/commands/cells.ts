import { placesOf } from '../../book/area.ts';
import { sentence, short } from '../../book/label.ts';
import { isLocked, lockedProblem } from '../../book/locked.ts';
import { addressOf, decimalsOf, namesOf, rowHeading, titleOf } from '../../book/look-up.ts';
import { isRefused } from '../../book/refused.ts';
import { isAnsweredByFormula, setAside } from '../../book/set-aside.ts';
import { type Command, type OnCells, onCells, type Run } from './command.ts';
import { chooseWhole, columnsIn, fetchReshaping, inTable, many, question, rowsIn } from './lines.ts';
import { shapeIn } from './shape.ts';
import { quantity } from './units.ts';

const MOST_DECIMALS = 15;

const addresses = ({ book, area }: OnCells): readonly string[] => (placesOf(book, area)?.lines ?? []).flat().map(addressOf);

const lock = (locked: boolean): Run => onCells(async (state) => (await fetchReshaping()).setLock(state.book, { addresses: addresses(state), locked }));

const repeat = (axis: 'row' | 'column'): Run => onCells(async ({ book, area }) => (await fetchReshaping()).repeatCells(book, { area, axis }));

const decimals = (by: 1 | -1): Run =>
  onCells(async (state) => {
    const { book, at, values } = state;
    const [{ viewOf }, { setDecimals }] = await Promise.all([import('../cells/index.ts'), fetchReshaping()]);
    const shown = viewOf(at, values).number;
    const now = decimalsOf(at) ?? Math.max(0, (shown?.fraction.length ?? 1) - 1);
    return setDecimals(book, { addresses: addresses(state), decimals: Math.min(MOST_DECIMALS, Math.max(0, now + by)) });
  });

/** A name as it is put forward: the row's heading in the letters that a name may have. */
const nameFrom = (heading: string): string =>
  heading
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '_')
    .replace(/^_|_$/g, '');

/** What is done with the chosen cells. */
export const cellCommands = [
  { id: 'clip-copy', label: 'Copy what is chosen', words: 'clipboard', keys: 'Ctrl C', when: inTable, run: () => ({ do: 'clip', clip: 'copy' }) },
  { id: 'clip-cut', label: 'Cut what is chosen, to move it', words: 'clipboard', keys: 'Ctrl X', when: inTable, run: () => ({ do: 'clip', clip: 'cut' }) },
  {
    id: 'clip-paste',
    label: 'Paste what was copied or cut',
    words: 'clipboard put insert',
    keys: 'Ctrl V',
    when: inTable,
    run: () => ({ do: 'clip', clip: 'paste' }),
  },
  { id: 'clear', label: 'Empty what is chosen', words: 'delete remove clear erase', keys: 'Delete', when: inTable, run: (state) => clear(state) },
  {
    id: 'repeat-down',
    label: 'Repeat the first row down',
    words: 'fill copy below formula',
    when: (state) => rowsIn(state) > 1,
    run: repeat('row'),
  },
  {
    id: 'repeat-across',
    label: 'Repeat the first column across',
    words: 'fill copy right formula',
    when: (state) => columnsIn(state) > 1,
    run: repeat('column'),
  },
  {
    id: 'unlock',
    label: (state) => many(shapeIn(state)?.locked ?? 1, 'Unlock the worked cell', 'Unlock # worked cells'),
    words: 'protect write over formula',
    when: (state) => (shapeIn(state)?.locked ?? 0) > 0,
    run: lock(false),
  },
  {
    id: 'lock',
    label: (state) => many(shapeIn(state)?.unlocked ?? 1, 'Lock the worked cell', 'Lock # worked cells'),
    words: 'protect guard formula',
    when: (state) => (shapeIn(state)?.unlocked ?? 0) > 0,
    run: lock(true),
  },
  {
    id: 'keep-value',
    label: 'Keep the value, drop the formula',
    words: 'freeze fix given instead worked number',
    settled: true,
    when: ({ at }) => at !== undefined && isAnsweredByFormula(at),
    run: onCells(async ({ book, at, values }) => (await fetchReshaping()).given(book, addressOf(at), values)),
  },
  {
    id: 'work-again',
    label: ({ at }) => `Work it out again: ${short(setAside(at?.cell) ?? '')}`,
    words: 'formula restore worked instead given',
    when: ({ at }) => setAside(at?.cell) !== undefined,
    run: onCells(async ({ book, at }) => (await fetchReshaping()).workAgain(book, { address: addressOf(at) })),
  },
  { id: 'more-decimals', label: 'Show one decimal more', words: 'digits format precision', when: quantity, run: decimals(1) },
  { id: 'fewer-decimals', label: 'Show one decimal fewer', words: 'digits format round', when: quantity, run: decimals(-1) },
  {
    id: 'own-decimals',
    label: 'Show as many decimals as the number needs',
    words: 'digits format reset',
    when: quantity,
    run: onCells(async (state) => (await fetchReshaping()).setDecimals(state.book, { addresses: addresses(state), decimals: null })),
  },
  {
    id: 'allowed',
    label: 'What may be given here …',
    words: 'range list limits choices validation least greatest',
    when: (state) => shapeIn(state)?.head === false,
    run: onCells((state) => ({ do: 'open slip', slip: 'range', asked: { addresses: addresses(state), at: state.at } })),
  },
  {
    id: 'note',
    label: ({ at }) => (at?.cell?.note ? 'Change the note on this cell …' : 'Write a note on this cell …'),
    words: 'comment remark annotate add',
    when: (state) => inTable(state) && rowsIn(state) * columnsIn(state) === 1,
    run: onCells(async ({ at }) => {
      const { setNote } = await fetchReshaping();
      return question(`A note on ${titleOf(at)} (empty: none)`, at.cell?.note ?? '', (now, note) => setNote(now, { address: addressOf(at), note }));
    }),
  },
  {
    id: 'name-cell',
    label: 'Name this cell …',
    words: 'define label formula',
    when: (state) => inTable(state) && rowsIn(state) * columnsIn(state) === 1,
    run: onCells(async ({ book, at }) => {
      const { setName } = await fetchReshaping();
      const title = `A name for ${titleOf(at)}, by which formulas and texts can say it`;
      return question(title, namesOf(book, at)[0] ?? nameFrom(rowHeading(at)), (now, name) => setName(now, { name, address: addressOf(at) }));
    }),
  },
  {
    id: 'name-away',
    label: (state) => `Take the name ${shapeIn(state)?.names[0] ?? ''} away`,
    words: 'remove label',
    when: (state) => (shapeIn(state)?.names.length ?? 0) > 0,
    run: onCells(async ({ book, at }) => (await fetchReshaping()).setName(book, { name: namesOf(book, at)[0] ?? '', address: null })),
  },
  { id: 'choose-table', label: 'Choose the whole table', words: 'select all', keys: 'Ctrl A', when: inTable, run: chooseWhole('table') },
  {
    id: 'choose-on',
    label: 'Choose a block of cells: from here to the next one you click',
    words: 'select range area',
    when: inTable,
    run: () => ({ do: 'choose on' }),
  },
] as const satisfies readonly Command[];

/** Empties the chosen givens; worked cells that are locked stay, and it is said. The key is the table's own. */
export const clear: Run = onCells(async ({ book, area }) => {
  const places = (placesOf(book, area)?.lines ?? []).flat().filter((at) => at.cell !== undefined && at.cell.content !== '');
  const free = places.filter((at) => !isLocked(at));
  const [locked] = places.filter(isLocked);
  const { clearCells } = await import('../../book/commands/clear-cells.ts');
  const answer = free.length > 0 ? clearCells(book, { addresses: free.map(addressOf) }) : undefined;
  if (!locked) return answer ?? [];
  const stay = places.length - free.length;
  const words = stay === 1 ? lockedProblem(locked, '') : `${stay} worked cells are locked and stay as they are until you unlock them.`;
  const said = answer && (isRefused(answer) ? answer.message : sentence(answer.label));
  return [...(answer && !isRefused(answer) ? [answer] : []), { do: 'say', text: [said, words].filter(Boolean).join(' '), shown: true }];
});
