import { define, isRefusal } from '../define.ts';
import { LAYOUT_TEXT } from './field-params.ts';
import { countOf, layoutPpf } from './layout.ts';
import { parseLayout } from './layout-text.ts';
import { named } from './named.ts';

/** Output of all the fixtures of a layout together. */
export const LAYOUT_PPF = define({
  name: 'LAYOUT.PPF',
  family: 'The field over a bench',
  summary: 'The output of all the fixtures of a layout together.',
  use: 'For photons per joule and per price. New and undimmed.',
  formula: 'Σ count × output',
  params: [LAYOUT_TEXT],
  returns: { quantity: 'photon output', unit: 'µmol/s' },
  source: 'A sum',
  examples: [{ formula: 'LAYOUT.PPF(LAYOUT(243,1.15,0.06,120,3,3,3.6,1.5))', gives: 2187 }],
  work: ([text], show) => {
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('LAYOUT.PPF', layout);
    const ppf = layoutPpf(layout);
    const terms = () =>
      layout.groups.map((group) => ({ label: `${countOf(group)} of ${group.fixture.ppf} µmol/s`, value: countOf(group) * group.fixture.ppf }));
    show?.sum('output together', terms, 1, ppf, 'µmol/s');
    return ppf;
  },
});
