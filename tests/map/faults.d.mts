import type { Row } from './read-map.mjs';
import type { Room } from './read-rooms.mjs';

export interface Target {
  /** A file by its path from the root, a package as it is written. */
  readonly target: string;
  readonly line: number;
}
export type Imports = ReadonlyMap<string, readonly Target[]>;

export function faults(root: string): readonly string[];
export function sources(root: string): readonly string[];
export function importsIn(root: string, files: readonly string[]): Imports;
export function judged(map: readonly Row[], rooms: readonly Room[], imports: Imports): readonly string[];
