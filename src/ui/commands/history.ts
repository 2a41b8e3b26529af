import type { Command } from './command.ts';
import { control, controlAlone, controlShift } from './keys.ts';

/** Taking back and making again. */
export const historyCommands = [
  {
    id: 'undo',
    label: 'Take the last change back',
    words: 'undo revert cancel mistake',
    keys: 'Ctrl Z',
    presses: (e) => controlAlone(e, 'z'),
    when: (state) => state.canUndo,
    run: () => ({ do: 'undo' }),
  },
  {
    id: 'redo',
    label: 'Make the change again',
    words: 'redo forward',
    keys: 'Ctrl Shift Z',
    presses: (e) => controlShift(e, 'z') || control(e, 'y'),
    when: (state) => state.canRedo,
    run: () => ({ do: 'redo' }),
  },
] as const satisfies readonly Command[];
