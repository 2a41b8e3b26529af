/** Which given of a template answers to what was said: names of givens, rows of the scenarios, columns of the lights; a line a meaning. */
import type { Meaning } from './rules.ts';

export interface Place {
  /** A name of the book. */
  readonly name?: string;
  /** A row of the scenarios, by its id: of the first scenario. */
  readonly row?: string;
  /** A column of the list of lights, by its heading: in the first line that is free. */
  readonly light?: string;
  /** The list of readings. */
  readonly readings?: true;
  /** What was said is near to it and not the same, so that it is asked. */
  readonly ask?: string;
  /** Only where the text has such words. */
  readonly asked?: { readonly where: RegExp; readonly why: string };
}

const COMES_OFF = 'What was said is no height over the leaf tops: the plants, their pots and the light itself come off it.';

export const PLACES: Readonly<Partial<Record<Meaning, readonly Place[]>>> = {
  length: [{ name: 'bench_length' }],
  width: [{ name: 'bench_width' }],
  gap: [{ name: 'tier_gap' }, { name: 'highest_mount', ask: COMES_OFF }],
  headroom: [
    { name: 'tier_gap', ask: COMES_OFF },
    { name: 'highest_mount', ask: COMES_OFF },
    { name: 'lift_top', ask: 'It is from the soil to the lights’ faces.' },
  ],
  'highest mount': [{ name: 'highest_mount' }],
  'mount height': [{ name: 'read_height' }, { row: 'height' }],
  'lights over the floor': [{ name: 'lift_top', ask: 'It is from the soil to the lights’ faces.' }, { name: 'read_height' }, { row: 'height' }],
  aisle: [{ name: 'aisle' }],
  'plant height': [{ name: 'plant_height' }, { name: 'final_height' }],
  'first plant height': [{ name: 'start_height' }],
  'last plant height': [{ name: 'final_height' }, { name: 'plant_height' }],
  'tray height': [{ name: 'tray_height' }],
  'tray length': [{ name: 'tray_length' }],
  'tray width': [{ name: 'tray_width' }],
  'cable length': [{ name: 'cable_length' }],
  hours: [{ name: 'light_hours' }],
  on: [{ row: 'lamps_on' }],
  off: [{ row: 'lamps_off' }],
  mains: [{ name: 'mains_volts' }],
  breaker: [{ name: 'breaker' }],
  circuits: [{ name: 'circuits_free' }],
  'spare power': [{ name: 'spare_power' }],
  tariff: [{ name: 'tariff' }],
  latitude: [{ name: 'latitude' }],
  'PPFD wanted': [{ name: 'light_wanted' }],
  lux: [{ name: 'lux_read' }, { readings: true }],
  readings: [{ readings: true }],
  meter: [{ name: 'meter_kind' }],
  'lamp kind': [{ name: 'lamp_kind' }, { name: 'lux_lamp' }],
  'light power': [{ light: 'Power' }],
  'light output': [{ light: 'Output' }],
  'light beam': [{ light: 'Beam' }],
  'light volts': [{ light: 'Volts' }],
  'old lamps': [{ name: 'lamp_count' }],
  'old power': [{ name: 'lamp_watts' }],
  shelves: [{ name: 'tiers' }, { name: 'shelves_free', asked: { where: /trolleys|racks|carts/u, why: 'Are these all there are, or those of each?' } }],
  'trays a week': [{ name: 'trays_week' }],
  temperature: [{ name: 'ambient' }],
  crop: [{ name: 'crop' }],
  stage: [{ name: 'stage' }],
};
