/** What was typed into cells: shown while it is read, put into the book, told as it was taken or refused. */

import type { At } from '../../book/address.ts';
import { sentence } from '../../book/label.ts';
import { addressOf, titleOf } from '../../book/look-up.ts';
import type { Address } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { spokenValue, viewOf } from '../parts/cell-view.ts';
import { holdDrawing, type Place, samePlace, type Wishes } from '../parts/part.ts';
import type { Refusal, TableHost } from '../table/table-host.ts';

/** ms that what was typed may wait to be drawn together with what follows from it: one frame. */
const HOLD = 16;

/** What typing asks of the page. */
interface Page extends HTMLElement {
  readonly session: Session | undefined;
  refusal: Refusal | undefined;
  atPlace(place: Place): At | undefined;
  choose(wish: Wishes['choose']): void;
  tell(text: string, show?: boolean): void;
  requestUpdate(): void;
}

export class Typing {
  readonly #host: Page;
  /** What was typed and has no value yet, by cell. */
  pending: ReadonlyMap<Address, string> = new Map();
  /** Has drawn what was held for the values. */
  release = (): void => {};

  constructor(host: Page) {
    this.#host = host;
  }

  forget(): void {
    this.pending = new Map();
  }

  /** What was typed gives way to its value in the same turn. */
  settle(isIn: (address: Address) => boolean): void {
    if (this.pending.size > 0) this.pending = new Map([...this.pending].filter(([address]) => !isIn(address)));
  }

  /** Puts what was typed into its cell, and says what came of it. */
  async type({ place, typed }: Wishes['type']): Promise<void> {
    const { session } = this.#host;
    const at = this.#host.atPlace(place);
    if (!session || !at) return;
    const address = addressOf(at);
    this.pending = new Map([...this.pending, [address, typed]]);
    if (samePlace(this.#host.refusal?.place, place)) this.#host.refusal = undefined;
    this.#host.requestUpdate();
    try {
      const typing = session.type(address, typed);
      this.#holdForValues();
      const result = await typing;
      if (!result.ok || result.change.edits.length === 0) this.release();
      if (result.ok) {
        await session.settled();
        const after = this.#host.atPlace(place);
        this.#host.tell(
          [after && sentence(`${titleOf(after)}: ${spokenValue(viewOf(after, session.values))}`), result.said && `${result.said}.`].filter(Boolean).join(' '),
          result.said !== undefined,
        );
      } else this.#refuse(place, typed, result.message);
    } catch (error) {
      this.#refuse(place, typed, error instanceof Error ? error.message : String(error));
    } finally {
      if (this.pending.has(address)) {
        this.settle((other) => other === address);
        this.#host.requestUpdate();
      }
    }
  }

  /** Most edits are worked out before the next frame: what they change is drawn together with what was typed. A long calculation is not waited for. */
  #holdForValues(): void {
    holdDrawing(
      new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, HOLD);
        this.release = () => {
          clearTimeout(timer);
          resolve();
        };
      }),
    );
  }

  /** What could not be taken is kept, and shown where it was written unless something else is being written by now. */
  #refuse(place: Place, typed: string, message: string): void {
    const busy = [...this.#host.querySelectorAll<TableHost>('ob-table')].some((table) => table.writing.isOpen);
    this.#host.tell(message, busy);
    if (busy) return;
    this.#host.choose({ place, focus: true });
    this.#host.refusal = { place, typed, message };
  }
}
