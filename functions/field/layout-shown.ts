/** A layout's text with its lengths in feet and inches. It is for the eye: the metric text stays what is reckoned with. */
import { GAP, showNumber } from '../number-text.ts';

const N = String.raw`-?\d+(?:\.\d+)?(?:e[+-]?\d+)?`;
const SIZES = new RegExp(String.raw`(${N})×(${N}) m (${N}°) over (${N})×(${N}) m\b`, 'g');
const BESIDE = new RegExp(String.raw`(, beside \d+ and \d+ at )(${N}) m\b`, 'g');
const PLACE = new RegExp(String.raw`\((${N}), (${N})( turned)?\)`, 'g');

const feet = (metres: string): string => showNumber(Number(metres), 'ft').text;
const inches = (metres: string): string => showNumber(Number(metres), 'in').text.replace(`${GAP}in`, '');

/** Every layout that a text says; the rest of it stays. */
export const layoutInFeet = (text: string): string =>
  text.includes(' µmol/s ')
    ? text
        .replace(SIZES, (_, length, width, beam, along, across) => `${inches(length)} × ${inches(width)} in ${beam} over ${feet(along)} × ${feet(across)}`)
        .replace(BESIDE, (_, rows, apart) => `${rows}${feet(apart)}`)
        .replace(PLACE, (_, x, y, turned = '') => `(${feet(x)}, ${feet(y)}${turned})`)
    : text;
