import { expect, test } from 'vitest';
import { Sheet } from './sheet.ts';

test('x', () => {
  const s = new Sheet(
    {
      A1: '3.6 m',
      A2: '60 W',
      A3: '200 µmol/m²/s',
      A4: '16 h/d',
      A5: '0.25 EUR/kWh',
      A6: '330 d/year',
      A7: '25 °C',
      A8: '5 K',
      A9: '85 %',
      A10: '7',
      A11: 'basil',
      A12: '36 in',
      A13: '=A1+A12',
      A14: '=A12+A1',
      A15: '=A2*A4*A6*A5',
      A16: '=A1+A2',
      A17: '=IFERROR(A16,1)',
      A18: '=COUNT(A16)',
      A19: '=A3*A4',
      A20: '30 °C',
      A21: '=A20-A7',
      A22: '=A7+A8',
      A23: '=A7+A20',
      A24: '=AVERAGE(A7,A20)',
      A25: '=SQRT(A1*A1)',
      A26: '=IF(A1>A12,A1,A12)',
      A27: '=1-A9',
      A28: '=A10*A9',
      A29: '=ROUND(A12,1)',
      A30: '=A10+A1',
      A31: '=100 W*16 h/d*330 d',
      A32: '=SUM(A1:A5)',
      A33: '=INDEX(A1:B5,2,1)',
      A34: '=1 m+1 W',
      A35: '=BEAM.EXPONENT(120)',
      A36: '=BEAM.EXPONENT(A1)',
      A37: '=A1&"x"',
      A38: '=SIN(A1)',
      A39: '=A38+A2',
      A40: '=A2/A1^2',
    },
    { headings: { A1: 'Bench length', A2: 'Power' }, units: { A31: 'kWh' } },
  );
  for (let i = 13; i <= 40; i++) {
    const k = s.kind(`A${i}`);
    console.log(
      `A${i}`,
      JSON.stringify(s.content({ sheet: 0, row: i - 1, col: 0 })),
      k.is === 'fail'
        ? k.message + ' @' + s.address(k.at) + ' MEND ' + JSON.stringify(k.mend)
        : (k.is === 'number' ? k.dimension.key : k.is) + ' | ' + s.unit(`A${i}`),
    );
  }
  for (const t of [
    '=DLI(200,16)',
    '=A1+6',
    '=A12+6',
    '=2*3+A1',
    '=A7+5',
    '=A7>20',
    '=COUNTIF(A3:A3,">160")',
    '=BEAM.EXPONENT(120)',
    '=SUM(1,2,A1)',
    '=DLI(200,A10)',
    '=A4>0.5',
    '=IF(A1>2,A1,5)',
    '=A1*2',
    '=MATCH(36,A12:A12,0)',
    '=BEAM.EXPONENT({60,90})',
    '=A1-(-2)',
    '=A10&"a"&A1',
  ])
    console.log(t, JSON.stringify(s.commit(t)));
});
