import { calc, define } from '../define.ts';
import { YEARLY } from './params.ts';

export const COST_PER_MOL = define({
  name: 'COST.PER.MOL',
  family: 'Cost',
  summary: 'What one mole of light on the bench costs.',
  use: 'To compare plans that give different amounts of light. Count the light that lands on the crop, maintained over the years: DLI · area · days a year.',
  formula: '(run + capital) / mol a year',
  params: [
    { ...YEARLY, name: 'run', quantity: 'running cost', meaning: 'energy a year', atLeast: 0 },
    { ...YEARLY, name: 'capital', quantity: 'capital cost', meaning: 'as ANNUAL.CAPITAL gives it', atLeast: 0 },
    { name: 'light', quantity: 'light per year', unit: 'mol/year', meaning: 'that lands on the bench', atLeast: 1e-3, atMost: 1e15 },
  ],
  returns: { quantity: 'price of light', unit: 'money/mol' },
  source: 'By definition: yearly cost over yearly light',
  examples: [{ formula: 'COST.PER.MOL(704,149.76,10950)', gives: 0.0779689497717 }],
  work: ([run, capital, light], show) => {
    const value = (run + capital) / light;
    show?.expression('yearly cost over yearly light', calc`(${run} + ${capital}) / ${light}`, value, 'money/mol');
    return value;
  },
});
