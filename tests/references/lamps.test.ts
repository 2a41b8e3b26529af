/** How many lux a lamp has for each µmol/m²/s, and how far lamps of one kind lie apart, against the spectra that a standard has for them. */
import { expect, test } from 'vitest';
import { outcome } from './outside.ts';
import spectra from './spectra/lamps.json' with { type: 'json' };

const { eye, illuminants } = spectra;
const NM = eye.map((_, i) => spectra.nm.from + i * spectra.nm.step);
/** µmol of a joule at one nanometre: h, c and Avogadro's number of the SI (2019). */
const MICROMOLES = 1 / (6.62607015e-34 * 299_792_458 * 6.02214076e23 * 1e3);

/** 683 lm/W by the eye, over the photons from 400 to 700 nm: sums by the trapezium rule. */
function factor(spectrum: readonly number[]): number {
  const lux = spectrum.reduce((sum, s, i) => sum + s * (eye[i] ?? 0), 0) * 683;
  const end = (nm: number): number => (nm === 400 || nm === 700 ? 0.5 : nm > 400 && nm < 700 ? 1 : 0);
  const photons = spectrum.reduce((sum, s, i) => sum + s * (NM[i] ?? 0) * end(NM[i] ?? 0), 0) * MICROMOLES;
  return lux / photons;
}

const glowing = (kelvin: number): number => factor(NM.map((nm) => nm ** -5 / (Math.exp(14_387_768.775 / nm / kelvin) - 1)));
const ends = async (lamp: string): Promise<readonly number[]> =>
  (await Promise.all(['low', 'high'].map((end) => outcome({ formula: `LAMP.LUX("${lamp}","${end}")`, in: 'lx per µmol/m²/s' })))).map(Number);

test('the eye’s sensitivity adds up as the standard says it does', () => {
  // CIE 018:2019: its integral is 106.857 nm.
  expect(eye.reduce((a, b) => a + b, 0) * spectra.nm.step).toBeCloseTo(106.857, 2);
});

test.each([
  ['warm white LED', ['LED-B1', 'LED-B2', 'LED-BH1', 'LED-V1']],
  ['neutral white LED', ['LED-B3', 'LED-V2']],
  ['cool white LED', ['LED-B4', 'LED-B5']],
  ['cool white fluorescent', ['FL3', 'FL4', 'FL5', 'FL6', 'FL7', 'FL9', 'FL10', 'FL11', 'FL12']],
  // FL4 is a tube of 2940 K, FL12 one of three bands and 3000 K (CIE 015:2018).
  ['warm white fluorescent', ['FL4', 'FL12']],
  ['high-pressure sodium', ['HP1']],
  ['sunlight', ['ID50']],
] as const)('every published %s lies within the span of its kind, and so does the usual one', async (lamp, names) => {
  const [low = Number.NaN, high = Number.NaN] = await ends(lamp);
  for (const name of names) {
    const spectrum = illuminants[name];
    expect(spectrum, name).toHaveLength(81);
    expect(factor(spectrum), name).toBeGreaterThanOrEqual(low);
    expect(factor(spectrum), name).toBeLessThanOrEqual(high);
  }
  const usual = Number(await outcome({ formula: `LAMP.LUX("${lamp}")`, in: 'lx per µmol/m²/s' }));
  expect(usual).toBeGreaterThan(low);
  expect(usual).toBeLessThan(high);
});

// Where the standard has the end itself, the span goes no farther than the next whole number but one.
test.each([
  ['warm white LED', 0, 'LED-V1'],
  ['neutral white LED', 0, 'LED-V2'],
  ['cool white fluorescent', 0, 'FL7'],
  ['cool white fluorescent', 1, 'FL4'],
  ['sunlight', 1, 'ID50'],
] as const)('the span of %s ends where the standard does (%s: %s)', async (lamp, end, name) => {
  expect(Math.abs(((await ends(lamp))[end] ?? 0) - factor(illuminants[name]))).toBeLessThan(1);
});

test('filaments and the sodium line, which need no table', async () => {
  const [low = 0, high = 0] = await ends('incandescent');
  // M. Planck's law, from dim to bright filaments.
  for (const kelvin of [2500, 2700, 2856, 3000]) {
    expect(glowing(kelvin)).toBeGreaterThan(low);
    expect(glowing(kelvin)).toBeLessThan(high);
  }
  // The eye's 0.769 at 589.3 nm (between 0.8163 at 585 nm and 0.757 at 590 nm), a line of its own.
  const line = (683 * 0.7653) / (589.3 * MICROMOLES);
  const sodium = await ends('low-pressure sodium');
  expect(line).toBeGreaterThan(sodium[0] ?? 0);
  expect(line).toBeLessThan(sodium[1] ?? 0);
});

test('a lux reading is the PPFD between its span’s ends, and the high factor gives the low one', async () => {
  // 10,000 lx under warm white LED: 10,000/75 and 10,000/53.
  expect(await outcome({ formula: 'LUX.TO.PPFD(10000,LAMP.LUX("warm white LED","high"))', in: 'µmol/m²/s' })).toBeCloseTo(133.333, 2);
  expect(await outcome({ formula: 'LUX.TO.PPFD(10000,LAMP.LUX("warm white LED","low"))', in: 'µmol/m²/s' })).toBeCloseTo(188.679, 2);
  expect(String(await outcome({ formula: 'LAMP.LUX("sunlight","middle")' }))).toMatch(/^refused: /);
});
