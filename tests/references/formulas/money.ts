import type { Checks } from '../outside.ts';

const level = (buy: number, yearly: number, years: number) => `IRR({${[-buy, ...Array(years).fill(yearly)].join(',')}})`;

export const checks: Checks = {
  'money-03': { formula: level(300, 100, 10), in: '%' },
  'money-04': { formula: level(340, 105, 10), in: '%' },
  'money-05': { formula: 'IRR({-3500,0,500,1000,1500,2000})', in: '%', says: 9.45 },
  'money-09': { formula: 'IRR({-250000,100000,150000,200000,250000,300000})', in: '%' },
  'money-10': { formula: 'IRR({-100,39,59,55,20})', in: '%' },
  'money-06': { formula: '-PRESENT.COST(10000,-3000,0.07,5)', in: 'money' },
  'money-08': { formula: 'NPV(0.281,39,59,55,20)-100' },
  'money-11': { formula: '-PMT(0.00625,180,200000)' },
  'money-12': { formula: 'ANNUAL.CAPITAL(10000,0.00666666666667,10)', in: 'money/year' },
  'money-13': { formula: 'ANNUAL.CAPITAL(10000,0.06,5)', in: 'money/year' },
  'money-15': [
    { formula: 'ENERGY.USE(240,1,16,365)', in: 'kWh/year', of: 'kWh' },
    { formula: 'RUN.COST(ENERGY.USE(240,1,16,365),0.15)', in: 'money/year', of: 'cost' },
  ],
  'money-16': [
    { formula: 'ENERGY.USE(6000,1,10,350)', in: 'kWh/year', of: 'kWh' },
    { formula: 'RUN.COST(ENERGY.USE(6000,1,10,350),0.125)', in: 'money/year', of: 'cost' },
    { formula: 'RUN.COST.BANDS(6000,8,18,{6,0.125},350)', in: 'money/year', of: 'cost' },
  ],
  'money-17': { formula: 'PAYBACK.YEARS(1200,300)', in: 'year' },
  'money-18': { formula: 'PAYBACK.YEARS(1200,0)', refused: 'never' },
  'money-19': { formula: 'DISCOUNTED.PAYBACK(1200,300,0.08)', in: 'year' },
  // 400 W give 1000 µmol/s (2.5 µmol/J), of which 700 land on one square metre.
  'money-20': { formula: 'COST.PER.MOL(RUN.COST(ENERGY.USE(400,1,10,365),0.15),0,DLI(700,10)*UNIT(1,"m²")*UNIT(365,"d/year"))', in: 'money/mol' },
  // Power for a square metre: 200 µmol/s there, of 0.7 that land, at 2.5 µmol/J.
  'money-21': { formula: 'RUN.COST(ENERGY.USE(UNIT(200,"µmol/s")/0.7/EFFICACY(250,100),1,16,365),0.15)', in: 'money/year' },
};
