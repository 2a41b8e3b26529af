import { AWG_RANGE } from '../data/conductors.ts';
import { calc, define } from '../define.ts';
import { wireArea, wireDiameter } from '../wire-gauge.ts';
import { CODES } from './params.ts';

export const AWG_PARAM = {
  name: 'awg',
  quantity: 'wire gauge (AWG)',
  unit: '1',
  meaning: 'American wire gauge, a whole number; a larger number is thinner',
  atLeast: AWG_RANGE.thickest,
  atMost: AWG_RANGE.thinnest,
  whole: true,
  upward: true,
} as const;

export const WIRE_AREA = define({
  name: 'WIRE.AREA',
  family: 'Supply, cable, breaker, support',
  summary: 'Cross-section of a wire from its American gauge.',
  use: 'For solid wire; stranded wire of a gauge has about the same metal.',
  formula: 'π/4 · (0.127 · 92^((36 − awg)/39))²',
  params: [AWG_PARAM],
  returns: { quantity: 'cross-section', unit: 'mm²' },
  source:
    'ASTM B258, Standard Specification for Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes, 2018, section 4: diameters from 0.005 in (36) in steps of the 39th root of 92',
  caution: CODES,
  examples: [{ formula: 'WIRE.AREA(18)', gives: 0.823, within: 1e-3 }],
  work: ([awg], show) => {
    const d = wireDiameter(awg);
    const value = wireArea(awg);
    show?.expression('diameter', calc`0.127 * 92^((36 - ${awg}) / 39)`, d, 'mm');
    show?.expression('cross-section', calc`pi / 4 * ${d}^2`, value, 'mm²');
    return value;
  },
});
