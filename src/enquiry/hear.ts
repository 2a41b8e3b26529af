/**
 * What a client's text says, whatever template is chosen: each thing with the words that it comes from, whether it is plain or to be asked, and why. Nothing is
 * guessed: where two things could be meant, both stand there.
 */
import { type Amount, amounts } from './amounts.ts';
import { type ByClock, byClock, cycles, hoursOf } from './clock.ts';
import { COUNTED, countOf, countSaid, GO_TO, OF_EACH } from './counts.ts';
import { grids } from './grid.ts';
import { judge, ownerOf } from './judge.ts';
import { cropsSaid, lampsOf, lampsSaid, meterSaid, readingsSaid } from './named.ts';
import { type Noun, nouns, nounsIn, type Owner } from './nouns.ts';
import { marksOf } from './numbers.ts';
import { plain } from './plain.ts';
import { type Meaning, WHICH_SIDE } from './rules.ts';
import { finder, overlaps, type Stretch, sentences } from './sentences.ts';
import { sidesFrom } from './sides.ts';
import { type Around, BETWEEN, type Heard, isDoubted, type Judged, NEW, NO_CURRENCY, OLD, ROOM, type Said, type Sided, TWO } from './things.ts';

const SIDED: ReadonlySet<Meaning> = new Set(['length', 'width']);
/** What stands in a room and has sides of its own. */
const HOLDS: ReadonlySet<Owner> = new Set(['bench', 'shelf', 'rack']);

export function hear(original: string): Heard {
  const text = plain(original);
  const marks = marksOf(text);
  const around: Around = { text, nouns: nouns(text), sentences: sentences(text) };
  const made: Said[] = [];
  const rest: Said[] = [];
  const read = grids(text, marks);
  const clocks = byClock(text);
  const turns = cycles(text);
  const isTaken = overlaps([...read, ...clocks, ...turns].sort((a, b) => a.from - b.from));
  const sentenceAt = finder(around.sentences);
  const free = amounts(text, original, marks).filter((amount) => !isTaken(amount));
  const judged = free.map((amount): Sided => {
    const sentence = sentenceAt(amount.from);
    const noun = ownerOf(around, amount, sentence);
    return { amount, sentence, noun, judged: judge(around, amount, sentence, noun?.owner ?? 'none') };
  });
  let counting: { readonly noun: Noun; readonly means: Meaning } | undefined;
  const inFeet = /(?<!\p{L})(?:ft|feet|foot|inch(?:es)?)(?!\p{L})|\d ?["']/u.test(text);
  const oldThere = lampsOf(text).some(({ among }) => among[0] !== undefined && !/LED/u.test(among[0]));

  for (let i = 0; i < judged.length; i++) {
    const { amount, sentence, noun, judged: meant } = judged[i] as Sided;
    const side = amount.quantity === 'length' || amount.size !== undefined ? sidesFrom(judged, i, text, inFeet) : undefined;
    if (side) {
      made.push(...side.said);
      rest.push(...side.rest);
      i += side.used - 1;
      continue;
    }
    // Of a single length of a house nothing follows for its benches.
    const ofRoom = meant?.unsided && (noun?.owner === 'room' || noun?.owner === 'tray');
    const ofHouse =
      meant && noun?.owner === 'room' && SIDED.has(meant.means) && !nounsIn(around.nouns, sentence.from, sentence.to).some(({ owner }) => HOLDS.has(owner));
    if (meant && ofHouse) {
      // A side of the room itself: `a closet 5 ft wide`.
      const [said] = saidOf(amount, meant, text, sentence, oldThere);
      if (said) made.push({ ...said, ask: ROOM });
      continue;
    }
    if (meant && meant.means !== 'other' && !ofRoom) {
      made.push(...saidOf(amount, meant, text, sentence, oldThere));
      continue;
    }
    const more =
      counting && amount.quantity === 'plain' && GO_TO.test(text.slice(Math.max(sentence.from, amount.from - 24), amount.from)) ? counting : undefined;
    const counted = amount.quantity === 'plain' && !meant ? (more?.noun ?? countOf(around, amount, sentence)) : undefined;
    const means = more?.means ?? (counted && COUNTED[counted.owner]);
    if (counted && means) {
      const told = countSaid(amount, counted, means, text, sentence, oldThere);
      made.push(...told);
      counting = { noun: counted, means: told[0]?.means ?? means };
      continue;
    }
    if (amount.quantity !== 'plain')
      rest.push(...amount.values.slice(0, 1).map((value): Said => ({ means: 'other', value, unit: amount.unit, from: amount.from, to: amount.to })));
  }
  // Joined and not pushed: a long text has more of them than a call takes arguments.
  const all = made.concat(
    clocks.flatMap(clockSaid(clocks.length)),
    turns.map(
      ({ from, to, hours }): Said => ({
        means: 'hours',
        value: hours,
        unit: 'h/d',
        from,
        to,
        ask: hours === 24 ? 'Every hour of the day and night?' : 'Hours on and hours off are said.',
      }),
    ),
    readingsSaid(read),
    cropsSaid(text),
    lampsSaid(text),
    meterSaid(text, read),
  );
  // Where the bench's own size is said, that of the room around it is no answer.
  const sized = all.some(({ means, ask }) => means === 'length' && ask !== ROOM);
  const sided = all.some(({ means, ask }) => means === 'length' && ask === undefined);
  const isRoom = ({ ask }: Said): boolean => (sized && ask === ROOM) || (sided && ask === WHICH_SIDE);
  return {
    plain: text,
    said: all.filter((one) => !isRoom(one)).sort((a, b) => a.from - b.from),
    rest: rest.concat(all.filter(isRoom).map((one): Said => ({ ...one, means: 'other' }))),
  };
}

/** `2x58W` of each. */
function tubesOf(amount: Amount, text: string): number {
  const hit = /(?<![\d.,])([2-8]) ?x ?$/u.exec(text.slice(Math.max(0, amount.from - 5), amount.from));
  return hit && OF_EACH.test(text.slice(Math.max(0, amount.from - 30), amount.from - hit[0].length)) ? Number(hit[1]) : 1;
}

function saidOf(amount: Amount, meant: Judged, text: string, sentence: Stretch, oldThere: boolean): readonly Said[] {
  let { means } = meant;
  const spoken = text.slice(sentence.from, sentence.to);
  if (means === 'light power' && oldThere && (OLD.test(spoken) || !NEW.test(spoken)) && !NEW.test(text.slice(amount.to, amount.to + 12))) means = 'old power';
  const south = means === 'latitude' && /^[^\d.,;]{0,10}?(?:south|(?<!\p{L})s(?!\p{L}))/u.test(text.slice(amount.to, amount.to + 22));
  const kwh = amount.said.endsWith('/kw');
  const doubt = isDoubted(text, sentence, amount.from, amount.to);
  const words: Record<string, string> = {
    ...(kwh && { price: 'A price of a kilowatt is said; that of a kilowatt-hour is asked for.' }),
  };
  const unit = unitOf(means, amount);
  const currency = means === 'tariff' && amount.unit === '' ? NO_CURRENCY : undefined;
  const more =
    amount.values.length > 1
      ? amount.quantity === 'plain' || amount.said === ''
        ? TWO
        : /\d ?(?:-|to)/u.test(text.slice(amount.from, amount.to))
          ? BETWEEN
          : TWO
      : undefined;
  const tubes = amount.quantity === 'power' ? tubesOf(amount, text) : 1;
  const ask =
    (tubes > 1 ? 'It is that of all tubes of one light.' : meant.ask) ?? more ?? words.price ?? currency ?? (doubt ? 'The client is not sure.' : undefined);
  const [from, to] = meant.to - meant.from <= 60 ? [meant.from, meant.to] : [amount.from, amount.to];
  return amount.values.map((value): Said => ({ means, value: (south ? -value : value) * tubes, unit, from, to, ...(ask === undefined ? {} : { ask }) }));
}

function unitOf(means: Meaning, amount: Amount): string {
  if (means === 'tariff') return `${amount.unit}/kWh`;
  if (means === 'hours') return 'h/d';
  if (means === 'latitude') return '°';
  if (means === 'temperature' && amount.quantity === 'angle') return '°C';
  if (means === 'PPFD wanted') return 'µmol/m²/s';
  if (means === 'DLI wanted') return 'mol/m²/d';
  if (means === 'light output') return 'µmol/s';
  if (means === 'mains') return 'V';
  return amount.unit;
}

const clockSaid =
  (count: number) =>
  ({ from, to, on, off, ask: doubt }: ByClock): readonly Said[] => {
    const ask = count > 1 ? 'Several spans of hours are said.' : doubt;
    const said = (means: Meaning, value: number, unit: string): Said => ({
      means,
      value: Number(value.toPrecision(12)),
      unit,
      from,
      to,
      ...(ask === undefined ? {} : { ask }),
    });
    return [
      ...(on === undefined ? [] : [said('on', on, 'h')]),
      ...(off === undefined ? [] : [said('off', off, 'h')]),
      ...(on === undefined || off === undefined ? [] : [said('hours', hoursOf(on, off), 'h/d')]),
    ];
  };
