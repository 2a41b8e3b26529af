export interface Import {
  /** As it is written: `../book/book.ts`, `lit`. */
  readonly from: string;
  readonly line: number;
}
export const RECKONED: string;
export function importsOf(path: string, text: string): readonly Import[];
