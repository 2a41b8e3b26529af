/** Looks into a book's Crops table: columns by heading, rows by crop and stage. */
import { say } from '../check-args.ts';
import { CROP_HEADINGS, type CropHeading } from '../data/crops.ts';
import { type Cells, type CellValue, isRefusal, type Refusal, refuse } from '../define.ts';
import { likest } from '../nearest.ts';
import { fromBase, need } from '../units.ts';

export const CROPS = {
  name: 'crops',
  quantity: 'Crops table',
  unit: 'mixed',
  shape: 'range',
  meaning: `the whole table, headings in its first row: ${CROP_HEADINGS.map(([h]) => h).join(', ')}`,
} as const;
export const CROP = { name: 'crop', quantity: 'crop', unit: 'text', meaning: 'as the table names it' } as const;
export const STAGE = { name: 'stage', quantity: 'stage', unit: 'text', meaning: 'as the table names it' } as const;
export const WHICH = {
  name: 'which',
  quantity: 'end of the range',
  unit: 'text',
  meaning: '“low”, “aim” or “high”; “aim” unless said',
  optional: true,
  fallback: 'aim',
  oneOf: ['low', 'aim', 'high'],
} as const;
/** A source that names one figure names no band: how far a plan may stand from it has to be said by whoever plans. */
export const SLACK = {
  name: 'slack',
  quantity: 'share allowed either way',
  unit: '1',
  meaning:
    'where the row’s low and high are one figure, how far below and above it the ends are put; where it has a low end alone, how far above it to aim; none unless said',
  optional: true,
  fallback: 0,
  atLeast: 0,
  below: 1,
} as const;
export const CROP_SOURCE = 'The book’s own Crops table; every row there names its source and how sure it is';

const plain = (text: CellValue | undefined): string =>
  String(text ?? '')
    .trim()
    .toLowerCase();

export interface CropRow {
  /** A cell by its heading, a number in the heading's unit; null where it is blank. */
  at(heading: CropHeading): string | number | null | Refusal;
}

/** The row of a crop and stage, or a refusal that says what the table has instead. */
export function cropRow(name: string, cells: Cells, crop: string, stage: string): CropRow | Refusal {
  const headings = (cells[0] ?? []).map(plain);
  const column = (heading: CropHeading): number => headings.indexOf(plain(heading));
  const [cropAt, stageAt] = [column('crop'), column('stage')];
  if (cropAt < 0 || stageAt < 0) return refuse(`${name}: the Crops table needs the headings “crop” and “stage” in its first row.`);
  const rows = cells.slice(1).filter((row) => plain(row[cropAt]) !== '');
  const ofCrop = rows.filter((row) => plain(row[cropAt]) === plain(crop));
  if (ofCrop.length === 0) {
    const near = likest(crop, [...new Set(rows.map((row) => String(row[cropAt])))]);
    return refuse(
      `${name}: the Crops table has no “${crop.slice(0, 40)}”.${near.length > 0 ? ` It has ${near.map((n) => `“${n}”`).join(', ')}.` : ' It is empty.'}`,
    );
  }
  const found = ofCrop.find((row) => plain(row[stageAt]) === plain(stage));
  if (!found) {
    const stages = ofCrop.slice(0, 8).map((row) => `“${String(row[stageAt] ?? '')}”`);
    return refuse(`${name}: the Crops table has no stage “${stage.slice(0, 40)}” of “${crop.slice(0, 40)}”. It has ${stages.join(', ')}.`);
  }
  return { at: (heading) => readCell(name, heading, column(heading), found) };
}

/** Hours below a hundredth are a number that has lost its unit: 16 would be read as 16 s a day. */
function readCell(name: string, heading: CropHeading, at: number, row: readonly CellValue[]): string | number | null | Refusal {
  if (at < 0) return refuse(`${name}: the Crops table has no column “${heading}”.`);
  const cell = row[at] ?? null;
  const unit = CROP_HEADINGS.find(([h]) => h === heading)?.[1] ?? 'text';
  if (cell === null || cell === '') return null;
  if (unit === 'text') return String(cell);
  if (typeof cell !== 'number') return refuse(`${name}: “${String(cell).slice(0, 40)}” is under “${heading}”; a number in ${unit} is needed.`);
  const value = fromBase(cell, need(unit));
  const [least, most] = unit === 'h/d' ? [0.01, 24] : [0, 1e5];
  if (!(value === 0 || (value >= least && value <= most)))
    return refuse(`${name}: the value under “${heading}” is ${say(value)} ${unit}; it must be from 0 to ${say(most)} ${unit}, and written with its unit.`);
  return value;
}

/** A number under a heading, or null where it is blank. */
export function cropNumber(row: CropRow, heading: CropHeading): number | null | Refusal {
  const cell = row.at(heading);
  return cell === null || isRefusal(cell) ? cell : Number(cell);
}
