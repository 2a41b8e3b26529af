import { define, isRefusal } from '../define.ts';
import { LAYOUT_TEXT } from './field-params.ts';
import { countOf, layoutCount } from './layout.ts';
import { parseLayout } from './layout-text.ts';
import { named } from './named.ts';

/** Fixtures of a layout. */
export const LAYOUT_COUNT = define({
  name: 'LAYOUT.COUNT',
  family: 'The field over a bench',
  summary: 'How many fixtures a layout has.',
  use: 'For parts lists, supplies and prices.',
  formula: 'along × across, or the positions given',
  params: [LAYOUT_TEXT],
  returns: { quantity: 'fixtures', unit: '1' },
  source: 'A count',
  examples: [{ formula: 'LAYOUT.COUNT(LAYOUT(243,1.15,0.06,120,3,3,3.6,1.5))', gives: 9 }],
  work: ([text], show) => {
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('LAYOUT.COUNT', layout);
    const count = layoutCount(layout);
    show?.sum('fixtures', () => layout.groups.map((group, i) => ({ label: `group ${i + 1}`, value: countOf(group) })), 1, count, '1');
    return count;
  },
});
