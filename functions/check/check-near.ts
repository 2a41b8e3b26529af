import { define } from '../define.ts';
import { LIMITS } from '../field/index.ts';

/** Nearer than so many spacings single diodes are seen. */
const SPACINGS = 2;

export const CHECK_NEAR = define({
  name: 'CHECK.NEAR',
  family: 'Check',
  summary: 'A check of light, or unknown where the leaves are nearer to the diodes than the calculation holds.',
  use: 'Around a check of the brightest point. A face counts as evenly bright: nearer than twice the spacing of its diodes, single ones are brighter than calculated, and what held is unknown. Without a spacing the check stands, and says that it is not given.',
  formula: 'the check where height ≥ 2 · spacing, or where it fails; else unknown',
  params: [
    { name: 'check', quantity: 'text of a check', unit: 'text', meaning: 'as CHECK.AT.MOST gives it' },
    { name: 'height', quantity: 'mount height', unit: 'm', meaning: 'from the diodes to the leaves', atLeast: 0, atMost: LIMITS.heightMost },
    {
      name: 'spacing',
      quantity: 'spacing of the diodes',
      unit: 'm',
      meaning: 'from one to the next, the widest; 0 where there are none; blank means that it is not known',
      atLeast: 0,
      atMost: 10,
      blankAllowed: true,
    },
  ],
  returns: { quantity: 'verdict', unit: 'text' },
  source: 'Twice the spacing: common practice, no published source',
  unchecked: 'It words a comparison; the wording is our own.',
  examples: [
    { formula: 'CHECK.NEAR("holds, 12 % under",0.3,0.02)', gives: 'holds, 12 % under' },
    { formula: 'CHECK.NEAR("holds, 12 % under",0.03,0.02)', gives: 'unknown, nearer than twice the diode spacing' },
    { formula: 'CHECK.NEAR("fails, 12 % over",0.03,0.02)', gives: 'fails, 12 % over' },
  ],
  work: ([check, height, spacing], show) => {
    if (spacing === null) return `${check}; diode spacing not given`;
    show?.note(`It holds from ${SPACINGS} spacings on.`);
    return height < SPACINGS * spacing * (1 - 1e-9) && !check.startsWith('fails') ? 'unknown, nearer than twice the diode spacing' : check;
  },
});
