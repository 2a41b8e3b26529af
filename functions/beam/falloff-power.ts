import { calc, define } from '../define.ts';
import { BEAM, HEIGHT } from '../field/field-params.ts';
import { beamExponent } from './beam-exponent.ts';
import { LONG, WIDE } from './beam-params.ts';
import { facePpfd } from './face-ppfd.ts';

/**
 * The power p for which PPFD under the centre goes like h^(−p) near a height.
 * E_m ∝ (m+1)h^(m+1)·mean r^(−(m+3)), so −d ln E/d ln h = (m+3)·h²·(mean r^(−(m+5)) / mean r^(−(m+3))) − (m+1) = (m+1)·(E₍ₘ₊₂₎/Eₘ − 1):
 * exact, from the PPFD of the same face with an exponent two higher.
 */
export const FALLOFF_POWER = define({
  name: 'FALLOFF.POWER',
  family: 'Beam and footprint',
  summary: 'The power of the height with which light falls off under one fixture, near a height.',
  use: '1 near a long bar, 2 far from anything, 0 close under a wide panel. Small changes only; FALLOFF.RATIO takes large ones.',
  formula: '−d ln PPFD / d ln h',
  params: [LONG, WIDE, BEAM, HEIGHT],
  returns: { quantity: 'power of the height', unit: '1' },
  source: 'Derivative of the field under the centre, worked out in the file’s head',
  examples: [
    { formula: 'FALLOFF.POWER(1.2,0,120,0.25)', gives: 1.07, within: 5e-3 },
    { formula: 'FALLOFF.POWER(1.2,0,120,1)', gives: 1.66, within: 5e-3 },
    { formula: 'FALLOFF.POWER(0,0,60,1)', gives: 2, within: 1e-9 },
  ],
  work: ([length, width, beam, height], show) => {
    const m = beamExponent(beam);
    show?.expression('exponent m of the cosine', calc`log(0.5) / log(cos(${beam} / 2 * pi / 180))`, m, '1');
    const here = facePpfd({ ppf: 100, length, width, m }, height, 0, 0, show, 'PPFD under the centre, per 100 µmol/s');
    const tighter = facePpfd({ ppf: 100, length, width, m: m + 2 }, height, 0, 0, show, 'the same with exponent m + 2');
    const power = (m + 1) * (tighter / here - 1);
    show?.expression('power of the height', calc`(${m} + 1) * (${tighter} / ${here} - 1)`, power, '1');
    return power;
  },
});
