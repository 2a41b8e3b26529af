import { bookOpen, type Command } from './command.ts';
import { controlAlone } from './keys.ts';

/** The list of commands itself. */
export const listCommands = [
  {
    id: 'find',
    label: 'Find a command',
    words: '',
    keys: 'Ctrl K',
    presses: (e) => controlAlone(e, 'k'),
    atOnce: true,
    when: () => true,
    run: () => ({ do: 'find command' }),
  },
] as const satisfies readonly Command[];

export const textCommands = [
  {
    id: 'find-text',
    label: 'Find and replace …',
    words: 'search text change filter look',
    keys: 'Ctrl F',
    presses: (e) => controlAlone(e, 'f'),
    when: bookOpen,
    run: () => ({ do: 'open slip', slip: 'find', asked: undefined }),
  },
] as const satisfies readonly Command[];
