/** Crops, stages, lamps and meters that a text names. */
import { CROPS, LAMPS, STAGES } from './crops.ts';
import type { Grid } from './grid.ts';
import { LENT, type Said } from './things.ts';

/** Foot-candles go on in lux: 1 fc is 1 lm/ft². */
const FOOT_CANDLE = 1e8 / 9290304;

export function readingsSaid(read: readonly Grid[]): readonly Said[] {
  return read.map(({ rows, unit, from, to }): Said => {
    const lux = unit === 'fc' ? rows.map((row) => row.map((cell) => cell && Number((cell * FOOT_CANDLE).toPrecision(12)))) : rows;
    return { means: 'readings', value: lux, unit: unit === 'fc' ? 'lx' : unit, from, to, ...(unit === '' && { ask: LENT }) };
  });
}

const METERS: readonly (readonly [said: RegExp, kind: string])[] = [
  [/(?:quantum|par)[- ](?:meter|sensor)s?/u, 'quantum meter'],
  [/lux[- ]?meters?/u, 'lux meter'],
];

export function meterSaid(text: string, read: readonly Grid[]): readonly Said[] {
  for (const [said, kind] of METERS) {
    const hit = said.exec(text);
    if (hit) return [{ means: 'meter', value: kind, unit: '', from: hit.index, to: hit.index + hit[0].length }];
  }
  const [first] = read;
  if (!first || first.unit === '') return [];
  return [{ means: 'meter', value: first.unit === 'µmol/m²/s' ? 'quantum meter' : 'lux meter', unit: '', from: first.from, to: first.to }];
}

const anyOf = (said: readonly string[]): RegExp => new RegExp(`(?<![\\p{L}\\d])(?:${said.map((one) => `(${one})`).join('|')})(?!\\p{L})`, 'gu');
const CROP = anyOf(CROPS.map(({ said }) => said));
const STAGE = anyOf(STAGES.map(([said]) => said));
const LAMP = anyOf(LAMPS.map(([said]) => said));

const indexOf = (hit: RegExpExecArray): number => hit.findIndex((part, i) => i > 0 && part !== undefined) - 1;

/** Hits of one thing often said again and again are told once. */
function once<T>(hits: readonly T[], key: (one: T) => string): readonly T[] {
  const known = new Set<string>();
  return hits.filter((one) => !known.has(key(one)) && known.add(key(one)));
}

const NO_CROP = /(?<!\p{L})(?:smell of|rose (?:to|up|by)|instead of|not |no )$/u;

/** `herbs I think`, `cucumbers on two of them, seedlings on the rest`. */
const CROP_DOUBTED = /^,? ?\(?(?:i (?:think|guess|suppose|believe)|maybe|perhaps|probably|or so)(?!\p{L})/u;
const OF_A_PART = /^ (?:on|in|for) (?:(?:\p{L}+|\d+) of (?:them|these|those)|(?:the )?(?:rest|others?|other half)|half(?! of))(?!\p{L})/u;

function askOfCrop(text: string, to: number, exact: boolean): string | undefined {
  const after = text.slice(to, to + 30);
  if (CROP_DOUBTED.test(after)) return 'The client is not sure.';
  if (OF_A_PART.test(after)) return 'It is said of a part.';
  return exact ? undefined : 'It is the nearest in the list of crops.';
}

export function cropsSaid(text: string): readonly Said[] {
  const hits = Array.from(text.matchAll(CROP)).filter((hit) => !NO_CROP.test(text.slice(Math.max(0, hit.index - 14), hit.index)));
  const crops = once(
    hits.map((hit) => ({ from: hit.index + (hit[0].length - hit[0].trimStart().length), to: hit.index + hit[0].length, row: CROPS[indexOf(hit)] })),
    ({ row }) => row?.said ?? '',
  );
  const stages = once(
    Array.from(text.matchAll(STAGE), (hit) => ({ from: hit.index, to: hit.index + hit[0].length, row: STAGES[indexOf(hit)] })),
    ({ row }) => row?.[0] ?? '',
  );
  const other = crops.length === 0 ? unknownCrop(text) : [];
  return [
    ...other,
    ...crops.flatMap(({ from, to, row }): Said[] => {
      if (!row) return [];
      const ask = askOfCrop(text, to, row.exact === true);
      return [{ means: 'crop', value: row.crops[0] ?? '', unit: '', from, to, among: row.crops, ...(ask === undefined ? {} : { ask }) }];
    }),
    ...stages.flatMap(({ from, to, row }): Said[] =>
      row ? [{ means: 'stage', value: text.slice(from, to), unit: '', from, to, among: [row[1].source] }] : [],
    ),
  ];
}

const GROWS =
  /(?<!\p{L})(?:grow(?:ing)?|rais(?:e|ing)|cultivat(?:e|ing)|crop(?: is|:)) (?:some |my |our |the |only |mostly |a bit of )?(\p{L}[\p{L}-]{3,20})/gu;
/** What people grow in, under and besides. */
const NOT_GROWN =
  /^(?:light|lights|lighting|lamp|lamps|plant|plants|room|rooms|tent|tents|under|indoors|outdoors|inside|outside|things?|stuff|food|vegetables?|veg|seedlings?|starts|well|better|best|them|these|those|that|this|there|here|from|year|more|most|with|without|bags?|medium|bench|beds?|rack|racks|shelf|shelves|space|area|house|tall|taller|when|until|till|towards?|into|over|about|during|fast|slow|season|operation|business|their|your|what|which|everything|anything|something|nothing|only|just|very|much|many|lots?|different|various|young|small|salads?|flowers?|cuttings|crops?)$/u;

/** A crop that no line of the table knows: it is said with the names that are near to it. */
function unknownCrop(text: string): readonly Said[] {
  for (const hit of text.matchAll(GROWS)) {
    const word = hit[1] ?? '';
    if (NOT_GROWN.test(word)) continue;
    const from = hit.index + hit[0].length - word.length;
    return [{ means: 'crop', value: word, unit: '', from, to: from + word.length, among: [] }];
  }
  return [];
}

export function lampsOf(text: string): readonly { readonly from: number; readonly to: number; readonly among: readonly string[]; readonly exact: boolean }[] {
  const hits = Array.from(text.matchAll(LAMP), (hit) => ({
    from: hit.index,
    to: hit.index + hit[0].length,
    among: LAMPS[indexOf(hit)]?.[1] ?? [],
    exact: LAMPS[indexOf(hit)]?.[2] ?? false,
  }));
  return once(hits, ({ among }) => among.join());
}

export const lampsSaid = (text: string): readonly Said[] =>
  lampsOf(text).map(
    ({ from, to, among, exact }): Said => ({
      means: 'lamp kind',
      value: among[0] ?? '',
      unit: '',
      from,
      to,
      among,
      ...(exact ? {} : { ask: 'There are several kinds of it.' }),
    }),
  );
