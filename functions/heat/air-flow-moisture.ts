import { calc, define, refuse } from '../define.ts';

export const AIR_FLOW_MOISTURE = define({
  name: 'AIR.FLOW.MOISTURE',
  family: 'Heat',
  summary: 'Air flow that carries water vapour away.',
  use: 'With air of 1.2 kg/m³, near 20 °C at sea level. HUMIDITY.RATIO gives both ratios.',
  formula: 'water / (1.2 · (inside − outside))',
  params: [
    { name: 'water', quantity: 'water given off', unit: 'kg/h', meaning: 'as vapour', atLeast: 0, atMost: 1e6 },
    { name: 'inside', quantity: 'vapour over dry air', unit: '1', meaning: 'in the air that leaves', atLeast: 0, atMost: 0.5 },
    { name: 'outside', quantity: 'vapour over dry air', unit: '1', meaning: 'in the air that comes in', atLeast: 0, atMost: 0.5 },
  ],
  returns: { quantity: 'air flow', unit: 'm³/h' },
  source: 'Moisture balance of a ventilated room: ASABE EP270, Design of Ventilation Systems for Poultry and Livestock Shelters (from memory)',
  examples: [{ formula: 'AIR.FLOW.MOISTURE(1.2,0.015,0.010)', gives: 200, within: 1e-9 }],
  caution: 'Ventilation is designed by licensed practice, to the local codes.',
  work: ([water, inside, outside], show) => {
    if (inside <= outside) return refuse('The air that comes in is no drier: it carries no vapour off.');
    const value = water / (1.2 * (inside - outside));
    if (!Number.isFinite(value)) return refuse('The air that comes in is hardly drier: no flow of it is enough.');
    show?.expression('air that takes up the vapour', calc`${water} / (1.2 * (${inside} - ${outside}))`, value, 'm³/h');
    return value;
  },
});
