/** What has no bearing on the plan that is handed over, and stays off its sheet. */
import type { Found, Reader } from './reader.ts';

/** As Fixtures says it of a light with its own driver. */
const MAINS = 'mains';

/** As rows and checks of a supply say it in such a scenario. */
const OWN_DRIVER = /^(?:holds, )?its own driver$/u;

/** What is given of a supply and of what lies behind it. */
const OF_A_SUPPLY = [
  'supply',
  'fuse',
  'fuse_kind',
  'fuse_price',
  'wire_area',
  'wire_gauge',
  'wire_cores',
  'wire_temperature',
  'wire_made_for',
  'drop_limit',
  'load_share',
  'output_limit',
];

/** As a row says it of which nobody gave anything, and a given that may stay blank by its source. */
const NOT_ASKED = /^(?:one price all day|not calculated|not planned|no rows beside)$/u;
const LEFT_OUT = 'default: none';

/** Rows that say something once another is a number. */
const ONCE: readonly (readonly [string, string])[] = [
  ['price_paid', 'peak_share'],
  ['beside_counted', 'full_middle'],
];

/** Costs that are left out where there are none. */
const NO_COST = ['replace_year'];

export const hasOwnDriver = (reader: Reader): boolean => reader.row('feed')?.text === MAINS;

/** The wire has one size: by its gauge where one is chosen, else by its area. */
export const byGauge = (reader: Reader): boolean => reader.named('wire_gauge')?.value.kind === 'number';

/** Whether a line says something of this plan. */
export function applies(reader: Reader, found: Found): boolean {
  const is = (ids: readonly string[]): boolean => ids.some((id) => reader.line(id)?.address === found.address);
  if (NOT_ASKED.test(found.text) || (found.source === LEFT_OUT && /^(?:none)?$/u.test(found.at.cell?.content ?? ''))) return false;
  if (ONCE.some(([id, other]) => is([id]) && reader.row(other)?.value.kind !== 'number')) return false;
  if (is(NO_COST) && found.value.kind === 'number' && found.value.base === 0) return false;
  if (OWN_DRIVER.test(found.text) || is([byGauge(reader) ? 'wire_area' : 'wire_gauge'])) return false;
  return !hasOwnDriver(reader) || !is(OF_A_SUPPLY);
}

/** A run of cable that is said to have no fuse. */
export const isNoFuse = ({ at, value }: Found): boolean => at.row.id === 'fuse' && value.kind === 'number' && value.base === 0;
