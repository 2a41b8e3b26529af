import type { PropertyDeclarations } from 'lit';
import type { At } from '../../book/address.ts';
import type { Session } from '../../session.ts';
import { Part } from '../parts/index.ts';

/** What a slip sees of what it lies on. The book is changed by a wish alone. */
export interface Around {
  readonly session: Pick<Session, 'book' | 'values' | 'ask' | 'settled'>;
  /** The chosen cell. */
  readonly at: At | undefined;
}

/** A small panel that asks for something. It is made when it is first opened, and sees what changes around it while it lies open. */
export abstract class Slip<Asked> extends Part {
  static override properties: PropertyDeclarations = { around: { attribute: false } };
  declare around: Around;

  abstract open(asked: Asked): void | Promise<void>;

  protected get dialog(): HTMLDialogElement | null {
    return this.querySelector('dialog');
  }

  get isOpen(): boolean {
    return this.dialog?.open ?? false;
  }

  protected close(): void {
    this.dialog?.close();
  }
}
