/** What was typed into cells: shown while it is read, put into the book, told as it was taken or refused. */
import type { Change } from '../../book/change.ts';
import { sentence } from '../../book/label.ts';
import { addressOf, rangeOf, titleOf } from '../../book/look-up.ts';
import { isRefused } from '../../book/refused.ts';
import { sourceText } from '../../book/said-by.ts';
import type { Address } from '../../engine/types.ts';
import type { Session } from '../../session.ts';
import { holdDrawing, type Place, samePlace, type Wishes } from '../parts/index.ts';
import { isWriting, type Refusal } from '../table/index.ts';
import type { Telling } from './telling.ts';
import type { Whereabouts } from './whereabouts.ts';

/** ms that what was typed may wait to be drawn together with what follows from it: one frame. */
const HOLD = 16;

const misfitsIn = async ({ book }: Session, change: Change): Promise<readonly string[]> => (await import('../../book/misfits.ts')).misfits(book, change);

/** What typing asks of the page. */
interface Page {
  readonly session: Session | undefined;
  readonly whereabouts: Whereabouts;
  readonly telling: Telling;
  requestUpdate(): void;
}

export class Typing {
  readonly #host: Page;
  /** What was typed and has no value yet, by cell. */
  pending: ReadonlyMap<Address, string> = new Map();
  /** What was typed and could not be taken, where it was written. */
  refusal: Refusal | undefined;
  /** The cell that was typed into last. */
  last: Place | undefined;
  /** Resolves when what was typed so far is read. */
  #reading: Promise<unknown> | undefined;
  /** Has drawn what was held for the values. */
  release = (): void => {};

  constructor(host: Page) {
    this.#host = host;
  }

  forget(): void {
    this.pending = new Map();
    this.refusal = undefined;
    this.last = undefined;
    this.#reading = undefined;
  }

  /** Something that was typed is not in the book yet. */
  get isReading(): boolean {
    return this.#reading !== undefined;
  }

  /** Resolves when all that was typed is in the book, or refused. */
  async read(): Promise<void> {
    while (this.#reading) await this.#reading;
  }

  /** What was typed gives way to its value in the same turn. */
  settle(isIn: (address: Address) => boolean): void {
    if (this.pending.size > 0) this.pending = new Map([...this.pending].filter(([address]) => !isIn(address)));
  }

  /** What was typed is seen at once, whatever it waits for. */
  show({ place, typed }: Wishes['type']): Address | undefined {
    const at = this.#host.whereabouts.atPlace(place);
    if (!at) return undefined;
    const address = addressOf(at);
    this.last = place;
    this.pending = new Map([...this.pending, [address, typed]]);
    if (samePlace(this.refusal?.place, place)) this.refusal = undefined;
    this.#host.requestUpdate();
    return address;
  }

  #follow<T>(typing: Promise<T>): Promise<T> {
    const all = Promise.all([this.#reading, typing.catch(() => {})]).then(() => {
      if (this.#reading === all) this.#reading = undefined;
    });
    this.#reading = all;
    return typing;
  }

  /** Puts an answer of the brief into its cell; gives why not, where it is refused. */
  async answer({ place, typed, said }: Wishes['answer']): Promise<string | undefined> {
    const { session } = this.#host;
    const at = this.#host.whereabouts.atPlace(place);
    if (!session || !at) return undefined;
    const address = addressOf(at);
    if (typed !== undefined) {
      const taken = await this.#follow(session.type(address, typed, said && sourceText(said.teller, said.how)));
      return taken.ok ? undefined : taken.message;
    }
    const { setSource } = await import('../../book/commands/set-source.ts');
    await this.read();
    const answer = said && session.run((book) => setSource(book, { address, ...said }));
    return answer && isRefused(answer) ? answer.message : undefined;
  }

  /** Puts what was typed into its cell, and says what came of it. `shown`: where it was shown meanwhile. */
  async type({ place, typed }: Wishes['type'], shown = this.show({ place, typed })): Promise<void> {
    const { session } = this.#host;
    const at = this.#host.whereabouts.atPlace(place);
    if (!session || !at) return;
    const address = addressOf(at);
    if (shown !== address) {
      // The cell stands elsewhere now.
      this.settle((other) => other === shown);
      this.show({ place, typed });
    }
    try {
      const typing = this.#follow(session.type(address, typed));
      this.#holdForValues();
      const result = await typing;
      if (!result.ok || result.change.edits.length === 0) this.release();
      if (result.ok) {
        // The table has fetched it already.
        const [{ spokenValue, viewOf }] = await Promise.all([import('../cells/index.ts'), session.settled()]);
        // What was taken back meanwhile was said since.
        if (session.history.undone.includes(result.change)) return;
        const after = this.#host.whereabouts.atPlace(place);
        // Where answers are picked together, what came along is said, and what does not go together.
        const wrong = after && rangeOf(after)?.from ? await misfitsIn(session, result.change) : [];
        const scenarios = after?.table.form === 'scenarios' ? (await import('./scenario-words.ts')).ofScenarios(session.book, result.change, after) : [];
        this.#host.telling.tell(
          [
            after && sentence(`${titleOf(after)}: ${spokenValue(viewOf(after, session.values))}`),
            result.change.edits.length > 1 && sentence(result.change.label),
            ...[result.said ?? [], wrong, scenarios].flat().map(sentence),
          ]
            .filter(Boolean)
            .join(' '),
          result.said !== undefined || wrong.length > 0 || scenarios.length > 0,
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
    const busy = isWriting();
    this.#host.telling.tell(message, busy);
    if (busy) return;
    this.#host.whereabouts.choose({ place, focus: true });
    this.refusal = { place, typed, message };
    this.#host.requestUpdate();
  }
}
