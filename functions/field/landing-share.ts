import { define, isRefusal } from '../define.ts';
import { HEIGHT, LAYOUT_TEXT } from './field-params.ts';
import { showModel } from './field-steps.ts';
import { landingShare } from './kernel.ts';
import { fixtureLandings } from './landing.ts';
import { faces, layoutPpf } from './layout.ts';
import { parseLayout } from './layout-text.ts';
import { named } from './named.ts';

/** Photons that land on the bench over photons emitted, as an exact integral and not from the sample grid. */
export const LANDING_SHARE = define({
  name: 'LANDING.SHARE',
  family: 'The field over a bench',
  summary: 'The share of all photons that lands on the bench.',
  use: 'For what hanging lower or a narrower beam saves. An exact integral, not the mean of a grid; with reflecting sides it counts what they throw back.',
  formula: '∫ E over the bench / Σ Φ',
  params: [LAYOUT_TEXT, HEIGHT],
  returns: { quantity: 'share of the photons', unit: '1' },
  source:
    'Integral of the field, derived for this program; for cosine emitters the exchange between parallel rectangles, J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, 2010, entries C-11 and C-13',
  examples: [
    { formula: 'LANDING.SHARE(LAYOUT(156,1.2,0,120,2,4,2.4,1.2),0.4)', gives: 0.6377, within: 1e-4 },
    { formula: 'LANDING.SHARE(LAYOUT(100,1,1,120,1,1,1,1),1)', gives: 0.199825, within: 1e-6 },
  ],
  work: ([text, height], show) => {
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('LANDING.SHARE', layout);
    const share = landingShare(layout, height);
    if (show) {
      showModel(show, layout);
      const all = faces(layout);
      const terms = () =>
        fixtureLandings(layout, height).map((value, i) => ({ label: `landed from fixture ${i + 1} at (${all[i]?.x}, ${all[i]?.y}) m, µmol/s`, value }));
      show.sum('photons landed from all fixtures, over photons emitted', terms, 1 / layoutPpf(layout), share, '1');
    }
    return share;
  },
});
