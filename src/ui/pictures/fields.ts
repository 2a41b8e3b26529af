import type { Engine, PictureField } from '../../engine/types.ts';
import type { Fields, Wanted } from '../../pictures/index.ts';

type Ask = <T>(question: (engine: Engine) => Promise<T>) => Promise<T>;

const MOST_KEPT = 400;

/** Fields as the engine gives them, undimmed, kept by what they depend on: a change of dimming, of a price or of a name asks for none anew. */
export class KeptFields implements Fields {
  readonly #kept = new Map<string, PictureField | { readonly refused: string }>();

  readonly #coming = new Map<string, Promise<void>>();

  has(wanted: readonly Wanted[]): boolean {
    return wanted.every((w) => this.#kept.has(keyOf(w)));
  }

  get(wanted: Wanted): ReturnType<Fields['get']> {
    return this.#kept.get(keyOf(wanted));
  }

  async fetch(ask: Ask, wanted: readonly Wanted[]): Promise<void> {
    // What another picture has asked for is waited for, not asked for twice.
    const coming = wanted.map((w) => this.#coming.get(keyOf(w)));
    const lacking = wanted.filter((w) => !this.#kept.has(keyOf(w)) && !this.#coming.has(keyOf(w)));
    const asked = lacking.length > 0 ? this.#ask(ask, lacking) : undefined;
    for (const w of asked ? lacking : []) this.#coming.set(keyOf(w), asked as Promise<void>);
    try {
      await Promise.all([...coming, asked]);
    } finally {
      for (const w of lacking) this.#coming.delete(keyOf(w));
    }
  }

  async #ask(ask: Ask, lacking: readonly Wanted[]): Promise<void> {
    const found = await ask((engine) => Promise.all(lacking.map((w) => engine.field(w.layout, w.height, w.nx, w.ny, 1))));
    for (const [i, w] of lacking.entries()) {
      const field = found[i];
      if (field) this.#kept.set(keyOf(w), field);
    }
    for (const key of this.#kept.keys()) {
      if (this.#kept.size <= MOST_KEPT) break;
      this.#kept.delete(key);
    }
  }
}

const keyOf = (w: Wanted): string => `${w.layout}|${w.height}|${w.nx}|${w.ny}`;
