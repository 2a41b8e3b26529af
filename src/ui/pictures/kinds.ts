/**
 * The pictures a page can hold, and what each reads.
 *
 * A picture block names its picture and gives it references by key. A reference to a cell of a scenarios table stands for that whole row:
 * each scenario is drawn with its own cell, and a scenario added later is drawn too. References to other tables are shared by all scenarios.
 */
export interface PictureKind {
  readonly name: string;
  readonly needs: readonly string[];
  readonly takes: readonly string[];
}

/**
 * `layout` the layout text; `height` face to canopy; `dim`, `maintenance` plain factors that the light is multiplied by (left out: 1);
 * `low`, `high` the ends of the target band, as PPFD of that same light.
 */
export const PICTURES: readonly PictureKind[] = [
  /** Filled contours over the bench, seen from above; the chosen scenario large, the others small, one scale for all. */
  { name: 'light map', needs: ['layout', 'height'], takes: ['dim', 'maintenance', 'low', 'high'] },
  /** PPFD along the middle of the bench and across it, all scenarios in one frame. */
  { name: 'cut', needs: ['layout', 'height'], takes: ['dim', 'maintenance', 'low', 'high'] },
  /** Mean PPFD against mount height, with the target line (`target`) and where each scenario hangs. `lowest` and `highest` bound the heights drawn. */
  { name: 'height curve', needs: ['layout', 'height'], takes: ['dim', 'maintenance', 'target', 'low', 'high', 'lowest', 'highest'] },
];
