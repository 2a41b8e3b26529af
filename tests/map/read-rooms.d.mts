export interface Room {
  readonly place: string;
  /** Rooms over it that it imports all the same, until that is mended. */
  readonly still: readonly string[];
}
export function readRooms(text: string): readonly Room[];
