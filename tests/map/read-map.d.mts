export interface Row {
  /** Folders end with a slash. */
  readonly places: readonly string[];
  readonly may: readonly string[];
  readonly anything: boolean;
}
export function readMap(text: string): readonly Row[];
