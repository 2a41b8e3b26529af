import type { parseArgs } from 'node:util';

type Options = NonNullable<NonNullable<Parameters<typeof parseArgs>[0]>['options']>;

/** One verb of the command line. */
export interface Verb {
  /** After the verb's name: `BOOK [TABLE]`. */
  readonly usage: string;
  readonly options: Options;
  /** Gives the exit status: 0, or 1 when something that was asked for could not be done. */
  run(operands: readonly string[], options: Readonly<Record<string, unknown>>): Promise<number>;
}
