import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Session } from '../../session.ts';
import type { Found } from '../opening.ts';
import type { Place } from '../part.ts';
import type { ShelfCard } from '../start.ts';

/** Where one was in a book. */
export interface View {
  readonly page: string;
  readonly chosen?: Place;
}

/** provisional */
export class Keeping implements ReactiveController {
  word = '';
  constructor(host: ReactiveControllerHost) {
    host.addController(this);
  }
  hostConnected(): void {}
  get lastOpen(): string | undefined {
    return undefined;
  }
  forget(): void {}
  async shelf(): Promise<readonly ShelfCard[]> {
    return [];
  }
  async fetch(_id: string): Promise<Found | undefined> {
    return undefined;
  }
  async remove(_id: string): Promise<void> {}
  follow(_session: Session): void {}
  leave(): void {}
  look(_view: View): void {}
  async now(): Promise<void> {}
}
