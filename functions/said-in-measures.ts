/** What functions say in words, in a reader's measures: `(1.75, 0.75) m`, `10 × 10 cm`, `air of 35 °C`. Texts that somebody wrote are left alone. */
import { inMeasures, type Measures } from './measures.ts';
import { showNumber, withSpaces } from './number-text.ts';
import { need, toBase } from './units.ts';

const N = String.raw`-?\d+(?:\.\d+)?`;
const POINT = new RegExp(String.raw`\((${N}), (${N})\) m\b`, 'g');
const SIZE = new RegExp(String.raw`(${N}) × (${N}) (m|cm)\b`, 'g');
const ONE = new RegExp(String.raw`(?<![\w.×/])(${N}) (m|cm|mm|m²|kg|N|K|°C|m³/h|Ω/km)(?![\w/·²³⁻×])`, 'g');
/** A table that is quoted is quoted as it is printed. */
const QUOTED = /^(?:IEC|ASTM|NFPA|BS|AWG)\b/;

export function saidInMeasures(text: string, measures: Measures): string {
  if (measures === 'metric' || QUOTED.test(text)) return text;
  const told = (number: string, symbol: string): string => {
    const base = toBase(Number(number), need(symbol));
    return withSpaces(showNumber(base, inMeasures(symbol, measures)).text);
  };
  return text
    .replace(POINT, (_, x, y) => `(${told(x, 'm')}, ${told(y, 'm')})`)
    .replace(SIZE, (_, a, b, symbol) => `${told(a, symbol)} × ${told(b, symbol)}`)
    .replace(ONE, (_, number, symbol) => told(number, symbol));
}
