/** What `parseArgs` of Node takes, with a word on each for people. */
type Options = Readonly<Record<string, { readonly type: 'string' | 'boolean'; readonly short?: string; readonly multiple?: boolean; readonly about: string }>>;

/** One verb of the command line. */
export interface Verb {
  /** After the verb's name: `BOOK [TABLE]`. */
  readonly usage: string;
  /** What it is for, in a sentence or two. */
  readonly about: string;
  readonly options: Options;
  /** Gives the exit status: 0, or 1 when something that was asked for could not be done. */
  run(operands: readonly string[], options: Readonly<Record<string, unknown>>): Promise<number>;
}
