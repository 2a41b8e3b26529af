import { say } from '../check-args.ts';
import { type Cells, calc, define, isRefusal, type Refusal, refuse, type Show } from '../define.ts';
import { counted } from '../number-text.ts';
import { pairedNumbers } from '../ranges.ts';

const LEAST_POINTS = 3;
const SOURCE =
  'ANSI/IES TM-21-19, 2019, section 5: exponential least squares on the logarithm of the averages; which hours of a test to take (the last 5,000, or the last half of a longer one) from memory';
const PARAMS = [
  { name: 'hours', quantity: 'hours of the test', unit: 'h', shape: 'range', meaning: 'at which light was measured', atLeast: 0, atMost: 1e6 },
  { name: 'shares', quantity: 'share of the first light', unit: '1', shape: 'range', meaning: 'mean of the sample at those hours', above: 0, atMost: 2 },
] as const;

/** Straight line through ln(share) over hours: share = start · e^(−rate · hours). */
function decay(name: string, hours: Cells, shares: Cells, show?: Show): { rate: number; start: number; meanX: number; meanY: number } | Refusal {
  const pairs = pairedNumbers(name, ['hours', hours], ['shares', shares]);
  if (isRefusal(pairs)) return pairs;
  const n = pairs.length;
  if (n < LEAST_POINTS) return refuse(`${name}: ${n === 1 ? 'there is' : 'there are'} ${counted(n, 'point')}; at least ${LEAST_POINTS} are needed.`);
  const meanX = pairs.reduce((sum, [h]) => sum + h, 0) / n;
  const meanY = pairs.reduce((sum, [, s]) => sum + Math.log(s), 0) / n;
  const xy = (h: number, s: number): number => (h - meanX) * (Math.log(s) - meanY);
  const sxx = pairs.reduce((sum, [h]) => sum + (h - meanX) ** 2, 0);
  const sxy = pairs.reduce((sum, [h, s]) => sum + xy(h, s), 0);
  if (sxx < 1) return refuse(`${name}: all points are at ${say(meanX)} h; they must lie apart.`);
  const rate = -sxy / sxx;
  const start = Math.exp(meanY + rate * meanX);
  if (!Number.isFinite(start)) return refuse(`${name}: these points give no sensible curve.`);
  if (show) {
    const terms = (of: (h: number, s: number) => number) => () => pairs.map(([h, s]) => ({ label: `${say(h)} h`, value: of(h, s) }));
    show.sum(
      'mean hours',
      terms((h) => h),
      1 / n,
      meanX,
      'h',
    );
    show.sum(
      'mean logarithm of the shares',
      terms((_, s) => Math.log(s)),
      1 / n,
      meanY,
      '1',
    );
    show.sum(
      'hours squared about their mean',
      terms((h) => (h - meanX) ** 2),
      1,
      sxx,
      '1',
    );
    show.sum('hours times logarithm about the means', terms(xy), 1, sxy, '1');
    show.expression('decay rate', calc`-(${sxy}) / ${sxx}`, rate, '/h');
    if (rate <= 0) show.note('The light did not fall in the test: no life can be projected from it.');
  }
  return { rate, start, meanX, meanY };
}

export const DECAY_RATE = define({
  name: 'DECAY.RATE',
  family: 'Ageing',
  summary: 'Decay rate of the light from a maker’s test hours and shares.',
  use: 'Then LIFE.TO(share, rate, DECAY.START). Leave out the first 1,000 hours. What may be claimed is limited: LIFE.CLAIM.LIMIT.',
  formula: '−slope of ln(share) over hours',
  params: PARAMS,
  returns: { quantity: 'decay rate', unit: '/h' },
  source: SOURCE,
  examples: [{ formula: 'DECAY.RATE({5000,6000,7000,8000,9000,10000},{0.9842,0.9815,0.9791,0.976,0.9738,0.9707})', gives: 2.7387927e-6, within: 1e-7 }],
  work: ([hours, shares], show) => {
    const found = decay('DECAY.RATE', hours, shares, show);
    return isRefusal(found) ? found : found.rate;
  },
});

export const DECAY_START = define({
  name: 'DECAY.START',
  family: 'Ageing',
  summary: 'Where the fitted decay curve of a test starts, over the first light.',
  use: 'Goes with DECAY.RATE into LIFE.TO.',
  formula: 'e^(intercept of ln(share) over hours)',
  params: PARAMS,
  returns: { quantity: 'share of the first light', unit: '1' },
  source: SOURCE,
  examples: [{ formula: 'DECAY.START({5000,6000,7000,8000,9000,10000},{0.9842,0.9815,0.9791,0.976,0.9738,0.9707})', gives: 0.99782652, within: 1e-7 }],
  work: ([hours, shares], show) => {
    const found = decay('DECAY.START', hours, shares, show);
    if (isRefusal(found)) return found;
    show?.expression('curve at no hours', calc`exp(${found.meanY} + ${found.rate} * ${found.meanX})`, found.start, '1');
    return found.start;
  },
});
