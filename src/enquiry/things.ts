/** What is said, whatever it is about: the data that the files of this room hand on. */
import type { Amount } from './amounts.ts';
import type { Noun } from './nouns.ts';
import type { Meaning } from './rules.ts';
import type { Stretch } from './sentences.ts';

export type Rows = readonly (readonly (number | null)[])[];

/** A grid is rows, null for a blank. */
export type Value = number | string | boolean | Rows;

export interface Said {
  readonly means: Meaning;
  readonly value: number | string | Rows;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
  /** Why it is to be asked; plain where it is left out. */
  readonly ask?: string;
  /** Of a crop or a lamp: all that may be meant, likeliest first. */
  readonly among?: readonly string[];
}

export const TWO = 'It can be read in two ways.';
export const BETWEEN = 'Two values are said.';
export const SIDES = 'Which side is which is not said: the longer is taken for the length.';
export const ROOM = 'This is said of the room.';
export const NO_CURRENCY = 'The currency is not said.';
export const SEVERAL = 'The text says more than one.';
export const LENT = 'The unit is not said.';

export interface Heard {
  readonly plain: string;
  readonly said: readonly Said[];
  /** Amounts that answer nothing. */
  readonly rest: readonly Said[];
}

/** A plain text with what is asked of it again and again. */
export interface Around {
  readonly text: string;
  readonly nouns: readonly Noun[];
  readonly sentences: readonly Stretch[];
}

export interface Judged {
  readonly means: Meaning;
  readonly from: number;
  readonly to: number;
  readonly ask?: string | undefined;
  /** Nothing said which side it is. */
  readonly unsided: boolean;
}

/** An amount, what its noun is, and what the rules take it for. */
export interface Sided {
  readonly amount: Amount;
  readonly sentence: Stretch;
  readonly noun: Noun | undefined;
  readonly judged: Judged | undefined;
}

export const OLD = /replac|swap|must go|get rid|old |dying|existing|change (?:from|over)|instead of|retire|worn|run (?:now )?(?:on )?sodium|now/u;
export const NEW = /led(?!\p{L})|leds|new |thinking of|want(?:ed)? (?:the )?\d|looking at|offered|ones(?!\p{L})|lens|umol|µmol/u;

const NOT_SURE =
  /(?<!\p{L})(?:maybe|perhaps|i (?:think|guess|believe|reckon)|not sure|or so|probably|might|promis\p{L}*|was told|people (?:say|write)|supposedly|others (?:say|write)|(?:someone|somebody|one|friend|neighbou?r|dealer|shop) (?:else )?(?:told|tells|says?|said)|\?\?)/u;

/** Whether the client is not sure of what stands there, by the words around it. */
export const isDoubted = (text: string, sentence: Stretch, from: number, to: number): boolean =>
  text.startsWith('ish', to) || NOT_SURE.test(text.slice(Math.max(sentence.from, from - 40), Math.min(sentence.to, to + 24)));
