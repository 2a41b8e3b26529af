/** What is usual where the client is: measures, money, mains, breakers, wire, paper. Whatever is left out stays. */
import { readContent } from '../../../functions/quantity-text.ts';
import type { At } from '../address.ts';
import { apply } from '../apply.ts';
import type { Book, Row } from '../book.ts';
import type { Change, Edit } from '../change.ts';
import { BY_AREA, gaugeFor, HABIT_CELLS, type Habits, habitsOf, meantBreaker } from '../habits.ts';
import { addressOf, placeOf, rangeOf } from '../look-up.ts';
import { type Answer, isRefused, type Refused, refused } from '../refused.ts';
import { isLeft } from '../said-by.ts';
import { squash } from '../squash.ts';
import { setCell } from './set-cell.ts';
import { setCurrency } from './set-currency.ts';
import { setPaper, setWires } from './set-customs.ts';
import { setMeasures } from './set-measures.ts';

export interface SetHabits extends Partial<Habits> {
  /** What one unit of the money until now is in the new one; left out, amounts keep their numbers. */
  readonly rate?: number;
}

const WHERE_CLIENT_IS = 'default: usual where the client is';
/** A: what a template takes for granted. */
const TAKEN = 16;

export function setHabits(book: Book, { rate, ...wanted }: SetHabits): Answer {
  const now = habitsOf(book);
  const steps: ((book: Book) => Answer)[] = [];
  const { measures, currency, mains, breakers, wires, paper } = wanted;
  if (measures !== undefined && measures !== now.measures) steps.push((b) => setMeasures(b, { measures }));
  if (currency !== undefined && currency !== now.currency) steps.push((b) => setCurrency(b, { currency, ...(rate === undefined ? {} : { rate }) }));
  if (mains !== undefined && mains !== now.mains) steps.push((b) => setMains(b, mains));
  if (breakers !== undefined && String(breakers) !== String(now.breakers)) steps.push((b) => setBreakers(b, breakers));
  if (wires !== undefined)
    steps.push(
      (b) => setWires(b, { wires }),
      (b) => setGauge(b, wires),
    );
  if (paper !== undefined) steps.push((b) => setPaper(b, { paper }));
  return inOneStep(book, steps);
}

/** Several commands, one after the other, as one change; the first refusal is that of all. */
export function inOneStep(book: Book, steps: readonly ((book: Book) => Answer)[]): Answer {
  let [made, after]: [Change | undefined, Book] = [undefined, book];
  for (const step of steps) {
    const answer: Change | Refused = step(after);
    if (isRefused(answer)) return answer;
    if (answer.edits.length === 0) continue;
    after = apply(after, answer);
    made = made ? squash(made, answer) : answer;
  }
  return made ?? { label: '', edits: [] };
}

/** A book without such a cell has no use for it. */
function put(book: Book, name: string, content: string, source?: string): Answer {
  const at = placeOf(book, name);
  if (!at) return { label: '', edits: [] };
  return setCell(book, { address: addressOf(at), content, ...(source === undefined ? {} : { source }) });
}

function setMains(book: Book, volts: number): Answer {
  const at = placeOf(book, HABIT_CELLS.mains);
  // Who has said it goes on having said it: only what nobody has is a habit.
  return put(book, HABIT_CELLS.mains, `${volts} V`, at && isLeft(at) ? WHERE_CLIENT_IS : undefined);
}

function setBreakers(book: Book, sizes: readonly number[]): Answer {
  if (sizes.length === 0) return refused('Say at least one size of breaker, in A.');
  const oneOf = sizes.map((size) => `${size} A`);
  const edits = [HABIT_CELLS.breaker, HABIT_CELLS.assumedBreaker].flatMap((name): Edit[] => {
    const at = placeOf(book, name);
    return at ? [rowEdit(at, { ...at.row, range: { ...rangeOf(at), oneOf } })] : [];
  });
  const offered: Change = { label: `Sizes of breakers: ${sizes.join(', ')} A`, edits };
  const assumed = meantBreaker(sizes, TAKEN);
  return inOneStep(book, [() => offered, (b) => put(b, HABIT_CELLS.assumedBreaker, `${assumed} A`, WHERE_CLIENT_IS)]);
}

const rowEdit = (at: At, after: Row): Edit => ({ at: 'row', table: at.table.id, index: at.rowIndex, before: at.row, after });

function setGauge(book: Book, wires: Habits['wires']): Answer {
  const is = placeOf(book, HABIT_CELLS.gauge)?.cell?.content;
  if (is === undefined || (is !== BY_AREA) === (wires === 'AWG')) return { label: '', edits: [] };
  if (wires === 'mm²') return put(book, HABIT_CELLS.gauge, BY_AREA);
  const [gauge, area] = [placeOf(book, HABIT_CELLS.gauge), placeOf(book, HABIT_CELLS.area)];
  const read = readContent(area?.cell?.content ?? '', book.currency);
  const gauges = (gauge && rangeOf(gauge)?.oneOf)?.map(Number).filter(Number.isFinite) ?? [];
  const meant = read.kind === 'number' ? gaugeFor(read.base * 1e6, gauges) : undefined;
  if (gauge && meant === undefined) return refused('No gauge here is as thick as the wire that is set: pick its gauge in the cell itself.');
  return put(book, HABIT_CELLS.gauge, String(meant));
}
