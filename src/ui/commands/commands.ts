import { VERB_NAMES, VERBS } from '../blocks/verbs.ts';
import type { Command, Desk } from '../parts/command.ts';
import { reshapeCommands } from './reshape-commands.ts';

/** Every command once: its label, the words that find it, its keys and when it can be used. Buttons, keyboard and the list all read from here. */

const held = (event: KeyboardEvent): boolean => (event.ctrlKey || event.metaKey) && !event.altKey;
const letter = (event: KeyboardEvent, key: string): boolean => held(event) && event.key.toLowerCase() === key;
const open = (desk: Desk): boolean => desk.bookOpen;

export const commands: readonly Command[] = [
  {
    id: 'find',
    label: 'Find a command',
    words: 'search list help keys',
    keys: 'Ctrl K',
    presses: (e) => letter(e, 'k') && !e.shiftKey,
    when: () => true,
    run: (d) => d.find(),
  },
  {
    id: 'undo',
    label: 'Take the last change back',
    words: 'undo revert',
    keys: 'Ctrl Z',
    presses: (e) => letter(e, 'z') && !e.shiftKey,
    when: (d) => d.canUndo,
    run: (d) => d.undo(),
  },
  {
    id: 'redo',
    label: 'Make the change again',
    words: 'redo',
    keys: 'Ctrl Shift Z',
    presses: (e) => (letter(e, 'z') && e.shiftKey) || letter(e, 'y'),
    when: (d) => d.canRedo,
    run: (d) => d.redo(),
  },
  { id: 'add-scenario', label: 'Add a scenario', words: 'new column compare variant', when: open, run: (d) => d.scenarioDo('add') },
  {
    id: 'drop-scenario',
    label: (d) => `Drop scenario ${d.scenario ?? ''}`.trim(),
    words: 'delete remove column',
    when: (d) => d.canDrop,
    run: (d) => d.scenarioDo('drop'),
  },
  {
    id: 'same',
    label: (d) => `Same as ${d.sameAs ?? 'A'} again`,
    words: 'inherit reset back base scenario',
    when: (d) => d.sameAs !== undefined,
    run: (d) => d.scenarioDo('same'),
  },
  {
    id: 'base',
    label: (d) => `Compare the others with ${d.scenario ?? 'this scenario'}`,
    words: 'base reference difference',
    when: (d) => d.scenario !== undefined,
    run: (d) => d.scenarioDo('base'),
  },
  ...reshapeCommands,
  { id: 'unit', label: 'Show in another unit …', words: 'convert view inches centimetres', when: (d) => d.quantity, run: (d) => d.askUnit('cell') },
  { id: 'row-unit', label: 'Show the row in another unit …', words: 'convert view', when: (d) => d.quantityRow, run: (d) => d.askUnit('row') },
  {
    id: 'measures',
    label: (d) => `Metric or US customary: ${d.measures === 'metric' ? 'show US customary' : 'show metric'}`,
    words: 'units feet inches metres imperial fahrenheit celsius convert',
    when: open,
    run: (d) => d.switchMeasures(),
  },
  {
    id: 'mend',
    label: 'Apply the mend',
    words: 'fix error repair',
    keys: 'Ctrl M',
    presses: (e) => letter(e, 'm') && !e.shiftKey,
    when: (d) => d.hasMend,
    run: (d) => void d.mend(),
  },
  {
    id: 'ask',
    label: 'Ask one question at a time',
    words: 'brief answer questions client interview who said so source left',
    when: (d) => d.hasQuestions,
    run: (d) => d.askQuestions(),
  },
  {
    id: 'carry-fit',
    label: 'Carry what the readings found into the scenarios',
    words: 'meter fit factor readings measured light apply',
    keys: 'Ctrl Shift L',
    presses: (e) => letter(e, 'l') && e.shiftKey,
    when: (d) => d.hasFit,
    run: (d) => d.carryFit(),
  },
  {
    id: 'take-in',
    label: 'Take in what the template checks now',
    words: 'edition older newer update checks lacking template upgrade',
    when: (d) => d.hasLacks,
    run: (d) => void d.takeIn(),
  },
  { id: 'back', label: 'Back to the value before', words: 'return working follow', when: (d) => d.canReturn, run: (d) => d.goBack() },
  {
    id: 'to-working',
    label: 'Go to the working of what is chosen, and back',
    words: 'margin steps where from keyboard',
    keys: 'F6',
    presses: (e) => e.key === 'F6',
    when: open,
    run: (d) => d.toWorking(),
  },
  { id: 'rename', label: 'Name the plan and its client', words: 'title rename client book', when: open, run: (d) => d.rename() },
  {
    id: 'send-book',
    label: 'Send out the book as a file',
    words: 'save download export json backup',
    keys: 'Ctrl S',
    presses: (e) => letter(e, 's') && !e.shiftKey,
    when: open,
    run: (d) => d.sendOut('book'),
  },
  {
    id: 'send-wide',
    label: 'Send out the scenarios as CSV, side by side',
    words: 'export download wide people table',
    when: open,
    run: (d) => d.sendOut('wide'),
  },
  { id: 'send-tidy', label: 'Send out every cell as CSV, one a line', words: 'export download tidy data', when: open, run: (d) => d.sendOut('tidy') },
  {
    id: 'bring-in',
    // A table can only come into a book.
    label: (d) => (d.bookOpen ? 'Bring in a book file or a table (CSV) …' : 'Bring in a book file …'),
    words: 'open import load readings list',
    keys: 'Ctrl O',
    presses: (e) => letter(e, 'o'),
    when: () => true,
    run: (d) => d.bringIn(),
  },
  {
    id: 'send-not-placed',
    label: 'Send out what found no place, as CSV',
    words: 'export rejected records mend import',
    when: (d) => d.hasNotPlaced,
    run: (d) => d.sendOut('not placed'),
  },
  {
    id: 'print',
    label: 'Print this page',
    words: 'paper pdf',
    keys: 'Ctrl P',
    presses: (e) => letter(e, 'p') && !e.shiftKey,
    when: open,
    run: (d) => d.print(),
  },
  { id: 'shelf', label: 'Other books and templates', words: 'shelf start new close home', when: open, run: (d) => d.shelf() },
  { id: 'hand-over', label: 'Hand-over sheet', words: 'print paper pdf client report A4 letter', when: open, run: (d) => d.show('hand-over') },
  { id: 'changes', label: 'What changed', words: 'history list', when: open, run: (d) => d.show('what-changed') },
  { id: 'functions', label: 'The functions', words: 'reference formulas help', when: open, run: (d) => d.show('functions') },
  ...VERB_NAMES.map((verb): Command => ({ id: verb, label: VERBS[verb][0], words: VERBS[verb][1], when: (d) => d.can(verb), run: (d) => d.arrange(verb) })),
  { id: 'light', label: 'Day or night look', words: 'dark light theme colours', when: () => true, run: (d) => d.light() },
];

export const labelOf = (command: Command, desk: Desk): string => (typeof command.label === 'string' ? command.label : command.label(desk));

/**
 * Those that go by all the words sought: first whose label begins with them, then whose label has them side by side, then has each of them,
 * and last whose other words are needed. What Enter runs is thus what the words say, if any label says it.
 */
export function ranked(among: readonly Command[], sought: string, desk: Desk): readonly Command[] {
  const words = sought.toLowerCase().split(/\s+/).filter(Boolean);
  const together = words.join(' ');
  const rank = (command: Command): number => {
    const label = labelOf(command, desk).toLowerCase();
    if (label.startsWith(together)) return 0;
    // "row" is rather a word of its own than the end of "narrower".
    if (` ${label}`.includes(` ${together}`)) return 1;
    if (words.every((word) => ` ${label}`.includes(` ${word}`))) return 2;
    if (words.every((word) => label.includes(word))) return 3;
    return words.every((word) => `${label} ${command.words}`.toLowerCase().includes(word)) ? 4 : Number.POSITIVE_INFINITY;
  };
  return among
    .map((command) => ({ command, rank: rank(command) }))
    .filter((each) => each.rank < Number.POSITIVE_INFINITY)
    .sort((a, b) => a.rank - b.rank)
    .map((each) => each.command);
}

/** Commands that can be used now, and going to each page. */
export function usable(desk: Desk): readonly Command[] {
  const goTo = desk.pages.map(
    (page): Command => ({ id: `page-${page.id}`, label: `Go to ${page.title}`, words: 'page contents', when: open, run: (d) => d.show(page.id) }),
  );
  return [...commands.filter((command) => command.when(desk)), ...goTo];
}

export function commandFor(event: KeyboardEvent, desk: Desk): Command | undefined {
  return commands.find((command) => command.presses?.(event) && command.when(desk));
}

export function command(id: string): Command {
  const found = commands.find((c) => c.id === id);
  if (!found) throw new Error(`There is no command ${id}.`);
  return found;
}
