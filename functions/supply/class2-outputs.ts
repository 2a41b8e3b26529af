import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';
import { CODES, downward, upward } from './params.ts';

/** Largest apparent power of one limited output, in VA, and its largest current up to `FIVE_AMPS_TO` volts. */
const MOST_VA = 100;
const MOST_AMPS = 5;
const FIVE_AMPS_TO = 20;
/** Largest continuous direct voltage of the limit at which wet contact is not likely. */
const DRY_VOLTS = 30;

export const CLASS2_OUTPUTS = define({
  name: 'CLASS2.OUTPUTS',
  family: 'Supply, cable, breaker, support',
  summary: 'How many limited outputs (at most 100 VA each, and 5 A up to 20 V) the fixtures need.',
  use: 'For supplies with separate limited outputs. A large supply is not limited because its fixtures are small: only its own marking makes it so. For 24 V and the like, direct current.',
  formula: 'ceil(count / floor(most / watts each)), most = 100 VA, or 5 A · volts up to 20 V',
  params: [
    { name: 'watts each', quantity: 'power of one fixture', unit: 'W', meaning: 'at its full light', above: 0, atMost: 1e6 },
    { name: 'count', quantity: 'number of fixtures', unit: '1', meaning: 'in all', atLeast: 1, atMost: 10000, whole: true },
    { name: 'volts', quantity: 'voltage', unit: 'V', meaning: 'of the outputs, direct current', above: 0, atMost: 60 },
  ],
  returns: { quantity: 'number of limited outputs', unit: '1' },
  source:
    'NFPA 70 (NEC), 2020, chapter 9, table 11(B): up to 20 V 5 A, above it 100 VA; for direct current up to 30 V where wet contact is likely, up to 60 V where it is not (from memory)',
  caution: CODES,
  examples: [
    { formula: 'CLASS2.OUTPUTS(60,4,24)', gives: 4 },
    { formula: 'CLASS2.OUTPUTS(40,6,24)', gives: 3 },
  ],
  work: ([watts, count, volts], show) => {
    const most = volts <= FIVE_AMPS_TO ? MOST_AMPS * volts : MOST_VA;
    const each = downward(most / watts);
    if (each < 1)
      return refuse(
        `CLASS2.OUTPUTS: one fixture of ${say(watts)} W is more than a limited output’s ${say(most)} VA at ${say(volts)} V. Fixtures of up to ${say(most)} W fit.`,
      );
    const value = upward(count / each);
    if (show) {
      show.expression('most current of one output', calc`${most} / ${volts}`, most / volts, 'A');
      show.expression('fixtures on one output', calc`floor(${most} / ${watts} + 1e-9)`, each, '1');
      show.expression('outputs', calc`ceil(${count} / ${each})`, value, '1');
      if (volts > DRY_VOLTS) show.note(`Above ${DRY_VOLTS} V direct current, wet contact is outside the limit.`);
      show.note('A supply counts as limited only if its own outputs are marked so.');
    }
    return value;
  },
});
