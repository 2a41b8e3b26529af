/** What is said of the argument in which the caret stands, and of how far the formula is right. */

import type { Signature } from '../../../functions/check-args.ts';
import { sentence } from '../../book/label.ts';
import type { FunctionCard, Value } from '../../engine/types.ts';
import { lineOf, paramText, type Standing } from '../cells/index.ts';

export interface Hint {
  readonly name: string;
  /** Its arguments; the one that is being written is `now`. */
  readonly takes: readonly { readonly text: string; readonly now: boolean }[];
  /** Of the present argument: meaning, unit and range. Undefined where nothing is known of it. */
  readonly says: string | undefined;
}

export const signatureText = ({ takes, again }: Signature): string =>
  [...takes.map((each) => (each.optional ? `[${each.name}]` : each.name)), ...(again > 0 ? ['…'] : [])].join(', ');

export function hintOf({ name, argument }: Standing, signature: Signature | undefined, card: FunctionCard | undefined): Hint | undefined {
  if (!signature) return undefined;
  const { takes, again } = signature;
  const over = argument - takes.length;
  const now = over < 0 ? argument : again > 0 ? takes.length - again + (over % again) : -1;
  const param = card?.params[now];
  const texts = takes.map((each, i) => ({ text: each.optional ? `[${each.name}]` : each.name, now: i === now }));
  return {
    name,
    takes: again > 0 ? [...texts, { text: '…', now: false }] : texts,
    says: now < 0 && argument > 0 ? `${name} takes no more than ${takes.length}.` : param && `${param.name}: ${paramText(param)}`,
  };
}

/** What the engine makes of it, as a sentence. `wrong`: there is something to be mended here. */
export interface Verdict {
  readonly text: string;
  readonly wrong: boolean;
  /** What is wrong is a name. */
  readonly naming?: boolean;
}

export function verdictOf(value: Value, whole: boolean): Verdict {
  if (value.kind === 'error') {
    // A given that waits for its answer is no mistake of the formula, and half a formula lacks what is still to come.
    if (value.word === 'not answered yet') return { text: value.message, wrong: false };
    if (!whole && value.word !== 'unit error') return { text: '', wrong: false };
    return { text: value.message, wrong: true, naming: value.word === 'no such name' };
  }
  if (!whole) return { text: '', wrong: false };
  if (value.kind === 'blank') return { text: 'It can be read, and is worked out once it is kept.', wrong: false };
  return { text: sentence(`Gives ${lineOf(value)}`), wrong: false };
}
