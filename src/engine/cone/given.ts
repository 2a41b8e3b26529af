/** What is put into a given, as the calculator is to have it; or why only the engine itself can take it. */
import { otherCurrency, readContent } from '../../../functions/quantity-text.ts';
import { type Unit, unit } from '../../../functions/units.ts';
import type { At } from '../../book/address.ts';
import type { Position } from '../addresses.ts';
import { BLANK, faultAt, type Inner } from '../hyper.ts';
import { tooMuchText } from '../objections.ts';
import { kindOfText } from '../quantities/index.ts';
import type { Workbook } from '../workbook.ts';

/** A content as cells store it, or a number in the unit in which the given is written. */
export type Put = number | string;

export type Taken =
  | {
      readonly inner: Inner;
      /** What the kinds and the shown units of all that reads it hang on. */
      readonly kind: string;
      readonly content: string;
    }
  | { readonly byEngine: string; readonly content: string };

/** Values of one given that are kept as they were read. */
const KEPT = 2_000;

export class Given {
  readonly at: Position;
  readonly place: At;
  readonly #workbook: Workbook;
  readonly #unit: Unit | undefined;
  readonly #known = new Map<Put, Taken>();

  constructor(workbook: Workbook, at: Position, place: At) {
    this.at = at;
    this.place = place;
    this.#workbook = workbook;
    const content = workbook.content(at);
    this.#unit = unit(content.kind === 'number' ? content.unit : workbook.shownUnit(at));
  }

  take(put: Put): Taken {
    const known = this.#known.get(put);
    if (known) return known;
    if (this.#known.size >= KEPT) this.#known.clear();
    const taken = this.#read(typeof put === 'string' ? put : this.#written(put));
    this.#known.set(put, taken);
    return taken;
  }

  #written(number: number): string {
    const symbol = this.#unit?.symbol ?? '';
    return symbol === '' ? String(number) : `${number} ${symbol}`;
  }

  #read(content: string): Taken {
    const { currency } = this.#workbook;
    const read = readContent(content, currency);
    const byEngine = (why: string): Taken => ({ byEngine: why, content });
    if (this.place.table.form === 'list' && (read.kind === 'blank') !== ((this.place.cell?.content ?? '') === ''))
      return byEngine('a row of a list that is begun or emptied wants other cells of it, or no longer does');
    const fault = read.kind === 'text' ? tooMuchText(read.text) : undefined;
    const wrong = fault ?? this.#workbook.feeding.outOfRange(this.at, content);
    const made = (inner: Inner, kind: string): Taken => ({ inner: wrong ? faultAt(wrong, this.at) : inner, kind, content });
    switch (read.kind) {
      case 'formula':
        return byEngine('a formula that is given reads other cells');
      case 'text': {
        if (otherCurrency(read.text, currency) !== undefined) return byEngine('money of another currency is a mistake that says how much');
        const kind = kindOfText(read.text);
        // A criterion with a digit in it is no plain word.
        return made(read.text, `text${kind.is === 'text' && kind.digits ? ' number' : ''}${/\d/.test(read.text) ? ' digit' : ''}`);
      }
      case 'yes or no':
        return made(read.yes, 'yes or no');
      case 'blank':
        return made(this.#blank(), 'blank');
      default: {
        if (!Number.isFinite(read.base) || Object.is(read.base, -0)) return byEngine('a number at the edge of what can be calculated with');
        return made(read.base, read.given === 0 && read.unit === '' ? 'nothing' : `number ${read.unit}`);
      }
    }
  }

  /** A given that is not answered is no blank. */
  #blank(): Inner {
    const { cell, row, column } = this.place;
    const stays = cell !== undefined && Object.keys(cell).some((key) => key !== 'content' && key !== 'typed');
    const asked = (row.kind ?? column.kind) === 'given' && !row.head;
    return stays || asked ? faultAt(this.#workbook.unanswered(this.at), this.at) : BLANK;
  }
}
