/** Fuses by their kind: what CHECK.FUSE and FUSE.SIZE share. */
import { cableOverGg, FUSES, FUSES_GG } from '../data/protection.ts';
import { AMPS } from './params.ts';

/** A continuous load may use four fifths of its fuse. */
export const OVER = 1.25;

export const fuseSizes = (kind: string): readonly number[] => (kind === 'gG' ? FUSES_GG : FUSES);

/** Current (A) that the cable must carry beside such a fuse. */
export const cableForFuse = (fuse: number, kind: string): number => fuse * cableTimes(fuse, kind);
export const cableTimes = (fuse: number, kind: string): number => (kind === 'gG' ? cableOverGg(fuse) : 1);

/** Nothing but binary dust lies between. */
const DUST = 1e-9;
export const isAbove = (a: number, b: number): boolean => a > b * (1 + DUST);

export const CABLE_AMPS = {
  ...AMPS,
  name: 'cable amps',
  quantity: 'current that the cable carries',
  meaning: 'as WIRE.AMPACITY gives it; a blank and “unknown” give “unknown”',
  blankAllowed: true,
  unknownAllowed: true,
} as const;
export const FUSE_KIND = {
  name: 'kind',
  quantity: 'kind of fuse',
  unit: 'text',
  optional: true,
  blankAllowed: true,
  oneOf: ['gG', 'other', 'unknown'],
} as const;
export const FUSE_SOURCE =
  'NFPA 70 (NEC), 2020 (edition from memory), 210.20(A): 125 percent of a continuous load. Class gG: IEC 60364-4-43:2008 (edition from memory), clause 433.1, with the melting currents of IEC 60269-1:2006 (1.31 and 1.1 read second-hand; 1.45 up to 4 A and the preferred ratings, with the edition, from memory). Others: ratings in which small fuses are sold: common practice, no published source';
