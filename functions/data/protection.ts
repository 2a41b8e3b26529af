/**
 * Standard ratings of fuses and circuit breakers, in amperes.
 *
 * Sources: circuit breakers for household and similar use, preferred rated currents of IEC 60898-1:2015, clause 5.3.2 (from memory);
 * overcurrent devices in North America, NFPA 70, National Electrical Code, table 240.6(A), 2020 (from memory);
 * small fuses, the ratings in which miniature and blade fuses are commonly sold: common practice, no published source.
 */

export const BREAKERS_IEC: readonly number[] = [6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100, 125];

export const BREAKERS_NEC: readonly number[] = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125];

export const FUSES: readonly number[] = [0.5, 1, 1.6, 2, 2.5, 3, 3.15, 4, 5, 6.3, 7.5, 8, 10, 12.5, 15, 16, 20, 25, 30, 32, 35, 40, 50, 60, 63, 80, 100];

/** Fuses of class gG: IEC 60269-1:2006+A2:2014, clause 5.3.1, preferred rated currents (from memory). */
export const FUSES_GG: readonly number[] = [2, 4, 6, 8, 10, 12, 16, 20, 25, 32, 40, 50, 63, 80, 100];

/**
 * How many times the rating of a gG fuse its cable must carry. IEC 60364-4-43, clause 433.1: what surely melts the fuse is at most 1.45 times what the
 * cable carries; it is 2.1 times the rating up to 4 A, 1.9 above 4 and below 16 A, 1.6 from 16 A (IEC 60269-1 to -3). 1.31 and 1.1 were read second-hand
 * in the help of a program for circuits, which gives 1.31 to all below 16 A; 1.45 up to 4 A, which asks for more, and the currents are from memory.
 */
export const cableOverGg = (rating: number): number => (rating <= 4 ? 1.45 : rating < 16 ? 1.31 : 1.1);
