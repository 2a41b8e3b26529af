/** Every command once, in the order of the list. Buttons, keys, menus and the list all read from here. */

import { cellCommands } from './cells.ts';
import { columnCommands } from './columns.ts';
import { bookOpen, type Command, labelOf, type PageState } from './command.ts';
import { entryCommands, otherEntries } from './entries.ts';
import { listCommands, textCommands } from './finding.ts';
import { lookCommands, ownPageCommands, workingCommands } from './going.ts';
import { historyCommands } from './history.ts';
import { pageCommands } from './pages.ts';
import { pieceCommands } from './pieces.ts';
import { planCommands } from './plan.ts';
import { proposingCommands } from './proposing.ts';
import { rowCommands } from './rows.ts';
import { scenarioCommands } from './scenarios.ts';
import { unitCommands } from './units.ts';
import { plainer, values, wordsOf } from './values.ts';
import { bookCommands } from './whole-book.ts';

const all = [
  ...listCommands,
  ...historyCommands,
  ...textCommands,
  ...cellCommands,
  ...rowCommands,
  ...columnCommands,
  ...scenarioCommands,
  ...entryCommands,
  ...unitCommands,
  ...planCommands,
  ...proposingCommands,
  ...bookCommands,
  ...workingCommands,
  ...ownPageCommands,
  ...pageCommands,
  ...pieceCommands,
  ...lookCommands,
] as const;

export type CommandId = (typeof all)[number]['id'];

export const commands: readonly (Command & { readonly id: CommandId })[] = all;

const byId: ReadonlyMap<string, Command> = new Map(commands.map((each) => [each.id, each]));

export const command = (id: CommandId): Command => byId.get(id) as Command;

/** Going to each page comes first, then the commands that can be used now, but for the list itself, then going to the values that are called so. */
export function usable(state: PageState, sought = ''): readonly Command[] {
  const goTo = state.pages.map(
    (page): Command => ({
      id: `page-${page.id}`,
      label: `Go to ${page.title}`,
      words: 'page contents',
      atOnce: true,
      when: bookOpen,
      run: () => ({ do: 'show page', page: page.id }),
    }),
  );
  const { book, at } = state;
  return [...goTo, ...commands.filter((each) => each.id !== 'find' && each.when(state)), ...otherEntries(state), ...(book ? values(book, at, sought) : [])];
}

export const commandFor = (event: KeyboardEvent, state: PageState): Command | undefined => commands.find((each) => each.presses?.(event) && each.when(state));

/** What can be done with the chosen row and its cells, or with the column: for the menu that hangs on it. */
export const lineCommands: Readonly<Record<'row' | 'column', readonly CommandId[]>> = {
  row: [...[...entryCommands, ...rowCommands, ...cellCommands].map((each) => each.id), 'fill-scenarios'],
  column: columnCommands.map((each) => each.id),
};

/**
 * Those that go by all the words sought, whole or begun: first whose label begins with them, then whose label has them side by side, then has each of
 * them, and last whose other words are needed. What Enter runs is thus what the words say, if any label says it. A value comes before other words only
 * where it is called so in full: "rate" is not looked for in "rated".
 */
export function ranked(among: readonly Command[], sought: string, state: PageState): readonly Command[] {
  const words = wordsOf(sought);
  return among
    .map((each) => ({ command: each, rank: Math.min(rank(each, words, state), rank(each, plainer(words), state)) }))
    .filter((each) => each.rank < Number.POSITIVE_INFINITY)
    .sort((a, b) => a.rank - b.rank)
    .map((each) => each.command);
}

function rank(each: Command, words: readonly string[], state: PageState): number {
  const label = ` ${wordsOf(labelOf(each, state)).join(' ')} `;
  const together = ` ${words.join(' ')}`;
  if (each.value) return each.value === 'called so' ? 1 : 4;
  if (label.startsWith(together) || label.startsWith(` go to${together}`)) return 0;
  if (label.includes(together)) return 1;
  if (words.every((word) => label.includes(` ${word}`))) return 2;
  return words.every((word) => `${label}${each.words.toLowerCase()}`.includes(` ${word}`)) ? 3 : Number.POSITIVE_INFINITY;
}
