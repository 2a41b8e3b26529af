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
