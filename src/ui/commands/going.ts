import { addressOf, standingOf } from '../../book/look-up.ts';
import { bookOpen, type Command, onCells, type PageState } from './command.ts';

const onWorked = ({ at }: PageState): boolean => at !== undefined && /^(worked|check)$/.test(standingOf(at));

/** From a value to where it comes from, and back. */
export const workingCommands = [
  {
    id: 'back',
    label: 'Back to the value before',
    words: 'return working follow',
    atOnce: true,
    when: (state) => state.canReturn,
    run: () => ({ do: 'go back' }),
  },
  {
    id: 'work-back',
    label: 'Work back from this value …',
    words: 'wanted target goal solve reverse should be which given break even',
    settled: true,
    when: onWorked,
    run: onCells(({ at }) => ({ do: 'open slip', slip: 'back', asked: { cell: addressOf(at) } })),
  },
  {
    id: 'copy-working',
    label: 'Copy the working as text',
    words: 'clipboard steps mail where from',
    settled: true,
    when: ({ at }) => at !== undefined,
    run: () => ({ do: 'copy working' }),
  },
  {
    id: 'print-working',
    label: 'Put the working on paper',
    words: 'print pdf steps where from',
    settled: true,
    when: ({ at }) => at !== undefined,
    run: () => ({ do: 'print working' }),
  },
  {
    id: 'to-working',
    label: 'Go to the working of what is chosen, and back',
    words: 'margin steps where from why trace explain keyboard fold unfold',
    keys: 'F6',
    presses: (e) => e.key === 'F6',
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'go to working' }),
  },
] as const satisfies readonly Command[];

/** Pages that every book has besides its own. */
export const ownPageCommands = [
  {
    id: 'hand-over',
    label: 'Hand-over sheet',
    words: 'print paper pdf client report quote offer summary installer A4 letter',
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'show page', page: 'hand-over' }),
  },
  {
    id: 'changes',
    label: 'What changed',
    words: 'history list log undo redo versions',
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'show page', page: 'what-changed' }),
  },
  {
    id: 'functions',
    label: 'The functions',
    words: 'reference formulas equations lumens',
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'show page', page: 'functions' }),
  },
  {
    id: 'glossary',
    label: 'Words explained',
    words: 'glossary meaning terms help explain',
    keys: 'F1',
    presses: (e) => e.key === 'F1',
    atOnce: true,
    when: bookOpen,
    run: () => ({ do: 'show page', page: 'glossary' }),
  },
] as const satisfies readonly Command[];

export const lookCommands = [
  {
    id: 'light',
    label: 'Day or night look',
    words: 'dark light theme colours appearance font size',
    atOnce: true,
    when: () => true,
    run: () => ({ do: 'switch light' }),
  },
] as const satisfies readonly Command[];
