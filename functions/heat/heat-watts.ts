import { calc, define } from '../define.ts';

const POWER = { unit: 'W', atLeast: 0, atMost: 1e9 } as const;

export const HEAT_WATTS = define({
  name: 'HEAT.WATTS',
  family: 'Heat',
  summary: 'Heat that lights bring into a room.',
  use: 'All power ends as heat: light too, once it is absorbed; a little leaves through glass or as water vapour. A supply outside the room keeps its own loss out.',
  formula: 'watts / efficiency with the supply inside; watts with it outside',
  params: [
    { ...POWER, name: 'watts', quantity: 'power', meaning: 'at the supplies’ outputs' },
    { name: 'efficiency', quantity: 'efficiency of the supply', unit: '1', meaning: 'output over input power', atLeast: 0.05, atMost: 1 },
    { name: 'supply inside', quantity: 'supply in the room', unit: 'yes or no', meaning: 'TRUE unless said', optional: true, fallback: true },
  ],
  returns: { quantity: 'heat', unit: 'W' },
  source: 'Closed form: conservation of energy',
  examples: [
    { formula: 'HEAT.WATTS(240,0.9)', gives: 266.6666666667 },
    { formula: 'HEAT.WATTS(240,0.9,FALSE)', gives: 240 },
  ],
  work: ([watts, efficiency, inside], show) => {
    const value = inside ? watts / efficiency : watts;
    show?.expression(
      inside ? 'with the loss of the supply' : 'the supply’s loss stays outside',
      inside ? calc`${watts} / ${efficiency}` : calc`${watts}`,
      value,
      'W',
    );
    return value;
  },
});
