/** What a command answers: the change it would make, or why it makes none. */
import type { Change } from './change.ts';

export interface Refused {
  readonly refused: true;
  /** A sentence for a person: what is wrong, where, and what is allowed. */
  readonly message: string;
}

export type Answer = Change | Refused;

export const refused = (message: string): Refused => ({ refused: true, message });

export const isRefused = (x: unknown): x is Refused => typeof x === 'object' && x !== null && (x as Refused).refused === true;
