/** The copy of a book on which it is worked back: made when it is first needed, and kept as long as the book is the same. */
import type { Book } from '../../book/book.ts';
import { Sweeper } from '../cone/index.ts';
import type { AskedBack, Waiting, WorkedBack } from '../types.ts';
import type { Life } from '../workbook.ts';
import { workBack } from './back.ts';
import { inSteps } from './in-steps.ts';

export class Copy {
  readonly #life: Life;
  #sweeper: Sweeper | undefined;

  constructor(life: Life) {
    this.#life = life;
  }

  /** The copy of this book. */
  of(book: Book): Sweeper {
    if (this.#sweeper?.book === book) return this.#sweeper;
    this.#sweeper?.close();
    this.#sweeper = new Sweeper(book, this.#life);
    return this.#sweeper;
  }

  async back(book: Book, asked: AskedBack, waiting?: Waiting): Promise<WorkedBack> {
    return (await inSteps(workBack(this.of(book), asked), waiting)) ?? { ok: false, message: 'This was stopped.' };
  }

  close(): void {
    this.#sweeper?.close();
  }
}
