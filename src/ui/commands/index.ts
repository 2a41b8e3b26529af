/** Commands: all that can be done, one record each, one file a subject. Buttons, keys, menus and the list read them; the shell does what they answer. */
export { clear } from './cells.ts';
export { type Command, type Effect, isChange, labelOf, type PageState, type SentOut } from './command.ts';
export { ObCommandList } from './command-list.ts';
export { type CommandId, command, commandFor, lineCommands } from './list.ts';
export { pasting } from './pasting.ts';

/** What a book of an earlier edition of its template lacks. */
export const fetchRenewing = () => import('./renewing.ts');
