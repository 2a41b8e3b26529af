/** What a kind of picture is: one file of this folder says what it shows, reads its cells, and draws what it read. */
import type { TemplateResult } from 'lit/html.js';
import type { Block, Book } from '../book/book.ts';
import type { PictureField, Values } from '../engine/types.ts';

export type PictureBlock = Extract<Block, { kind: 'picture' }>;

/**
 * A cell that a picture reads. A reference to a cell of a comparing table stands for that whole row: each scenario is drawn with its own cell,
 * and a scenario added later is drawn too. References to other tables are shared by all scenarios.
 */
export interface PictureRead {
  readonly key: string;
  /** As messages and the slip call it. */
  readonly name: string;
  readonly meaning: string;
  /** `layout`: the text that LAYOUT gives; `number`: any quantity; `texts`: names; else a unit of the quantity that is meant. */
  readonly takes: string;
  /** Cells one after another, one a month. */
  readonly run?: true;
  readonly needed?: true;
  /** A cell of a comparing table: no other says one thing of every scenario. */
  readonly compared?: true;
  /** What such a row or column is usually called. */
  readonly called: RegExp;
}

/** A field that the engine is asked for: of which layout, how high (m), over how many points. */
export interface Wanted {
  readonly layout: string;
  readonly height: number;
  readonly nx: number;
  readonly ny: number;
}

/** Fields as they were given, undimmed; undefined while one is not there. */
export interface Fields {
  get(wanted: Wanted): PictureField | { readonly refused: string } | undefined;
}

/** Where it is drawn. */
export interface Frame {
  readonly id: string;
  readonly caption: string;
  /** The column of the scenario that is drawn large or in front. */
  readonly chosen: string;
  /** px */
  readonly width: number;
  /** A costly piece, drawn anew only where what it hangs on has changed; on paper everything is drawn once. */
  readonly again: (hangsOn: unknown[], piece: () => TemplateResult) => unknown;
}

interface Parts<Found> {
  readonly title: string;
  readonly shows: string;
  /** By the key under which a block says them. */
  readonly reads: readonly PictureRead[];
  /** `found`: what is drawn, undefined where nothing can be; `missing`: what can't be drawn, and why. */
  read(block: PictureBlock, book: Book, values: Values): { readonly found: Found | undefined; readonly missing: readonly string[] };
  wants?(found: Found): readonly Wanted[];
  draw(found: Found, frame: Frame, fields: Fields): TemplateResult;
}

/** What a block reads at present, ready to be drawn once its fields are there. */
export interface Ready {
  readonly wants: readonly Wanted[];
  readonly missing: readonly string[];
  /** Undefined where nothing of it can be drawn. */
  readonly draw: ((frame: Frame, fields: Fields) => TemplateResult) | undefined;
}

export interface Picture extends Pick<Parts<never>, 'title' | 'shows' | 'reads'> {
  ready(block: PictureBlock, book: Book, values: Values): Ready;
}

/** What is read is what is drawn, of whichever kind that is. */
export function picture<Found>({ title, shows, reads, read, wants, draw }: Parts<Found>): Picture {
  return {
    title,
    shows,
    reads,
    ready(block, book, values) {
      const { found, missing } = read(block, book, values);
      if (found === undefined) return { wants: [], missing, draw: undefined };
      return { wants: wants?.(found) ?? [], missing, draw: (frame, fields) => draw(found, frame, fields) };
    },
  };
}
