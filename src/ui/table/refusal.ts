import type { Place } from '../parts/index.ts';

/** What was typed and could not be taken: it is kept until it is mended or given up. */
export interface Refusal {
  readonly place: Place;
  readonly typed: string;
  readonly message: string;
}
