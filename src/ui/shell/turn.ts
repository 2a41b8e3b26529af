/** What is asked for is done in the order in which it was asked, also where a part of the program must be fetched first. */
export class Turn {
  #last: Promise<unknown> | undefined;

  /** Something is being done. */
  get busy(): boolean {
    return this.#last !== undefined;
  }

  /** Does it at once where nothing is being done, else when all that was asked before is done. */
  take<T>(work: () => Promise<T>): Promise<T> {
    const mine = this.#last ? this.#last.then(work) : work();
    // What failed holds nobody up.
    const done: Promise<unknown> = mine
      .catch(() => {})
      .then(() => {
        if (this.#last === done) this.#last = undefined;
      });
    this.#last = done;
    return mine;
  }
}
