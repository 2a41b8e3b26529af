/** What the parts list says of fuses, of the wire, and of lights that take no supply. */
import { afterAll, beforeAll, expect, test } from 'vitest';
import { templateBook } from '../templates/open-template.ts';
import { fill, row } from '../templates/rows.ts';
import { type Made, make, makeFrom, section, textOf } from './made.ts';

let made: Made;
beforeAll(async () => {
  made = await make(templateBook('trade-bench'), 'A');
});
afterAll(() => made.session.close());

const said = async (): Promise<string> => textOf(section((await makeFrom(made.session, 'A')).body, 'parts')).replaceAll(/[\u202f\u00a0]/g, ' ');

test('each run of cable has its fuse in the parts list, with its size, kind, number and price', async () => {
  const text = await said();
  // Four supplies of three outputs for eighteen lights: twelve runs, at 3 EUR.
  expect(row(made.session, 'fuses')).toBe(12);
  expect(text).toMatch(/Fuses6\.3 A, kind other, one where each run of cable leaves its supply, for direct current12/);
  expect(text).toMatch(/3\.00 ?EUR36\.00 ?EUR/);
  expect(text).toContain('wire of 1.50 mm²');
});

test('a plan without fuses says so, and a wire that is chosen by its gauge is called by it', async () => {
  await fill(made.session, ['fuse', '0 A'], ['wire_gauge', '16']);
  const text = await said();
  expect(text).toMatch(/Fusesnone: what an output lets through is to be safe for the wire/);
  expect(text).toContain('wire of AWG 16');
  const body = textOf((await makeFrom(made.session, 'A')).body).replaceAll(/[\u202f\u00a0]/g, ' ');
  expect(body).toMatch(/Fuse of each run(?:to be agreed)?no fuse/);
  expect(body).not.toMatch(/0\.0 A/);
  expect(body).toMatch(/Wire size, by gauge \(AWG\)[^W]*16/);
  expect(body, 'the size that is not used is not said').not.toMatch(/Wire size(?!,)/);
  made.session.undo();
  made.session.undo();
  await made.session.settled();
});

test('a light with its own driver has no supply and no fuse in the parts list', async () => {
  await fill(made.session, ['fixture', 'Bay 320']);
  const text = await said();
  expect(text).toContain('none: each light has its own driver');
  expect(text).not.toMatch(/Fuses|Supply 24/);
  expect(text).toContain('an electrician says which');
  const { body } = await makeFrom(made.session, 'A');
  const all = textOf(body);
  expect(all.split('its own driver').length - 1, 'said once of the parts and once of the checks, and in what a check asks').toBe(3);
  expect(all.slice(0, all.indexOf('Calculations to check by hand'))).not.toMatch(/Fuse|Wire size|Wire temperature|Largest voltage drop|Supplies are loaded/);
  expect(textOf(section(body, 'checks'))).toContain('those of a supply do not apply');
  expect(textOf(section(body, 'electrics'))).toContain('Mains voltage');
  made.session.undo();
  await made.session.settled();
});
