import { define, isRefusal } from '../define.ts';
import { LAYOUT_TEXT } from './field-params.ts';
import { type Layout, layoutCount, layoutPpf } from './layout.ts';
import { joinLayouts, layoutText, parseLayout } from './layout-text.ts';
import { named } from './named.ts';

/** Layouts over one bench as one layout. */
export const LAYOUT_JOIN = define({
  name: 'LAYOUT.JOIN',
  family: 'The field over a bench',
  summary: 'Several layouts over one bench as one.',
  use: 'To mix fixtures. All hang at one height, over the same bench and between the same sides.',
  formula: 'all their faces together',
  params: [{ ...LAYOUT_TEXT, repeats: true }],
  returns: { quantity: 'layout', unit: 'text' },
  source: 'Our own convention',
  examples: [
    {
      formula: 'LAYOUT.JOIN(LAYOUT(243,1.15,0.06,120,3,1,3.6,1.5),LAYOUT.AT(44,0,0,60,3.6,1.5,{0.3,0.3}))',
      gives: '3 (3×1) of 243 µmol/s 1.15×0.06 m 120° over 3.6×1.5 m + 1 at (0.3, 0.3) of 44 µmol/s 0×0 m 60° over 3.6×1.5 m',
    },
  ],
  work: (texts, show) => {
    const parts: Layout[] = [];
    for (const text of texts) {
      const part = parseLayout(text);
      if (isRefusal(part)) return named('LAYOUT.JOIN', part);
      parts.push(part);
    }
    const joined = joinLayouts(parts);
    if (isRefusal(joined)) return named('LAYOUT.JOIN', joined);
    const text = layoutText(joined);
    const layout = parseLayout(text);
    if (isRefusal(layout)) return named('LAYOUT.JOIN', layout);
    show?.note(`${layoutCount(layout)} fixtures, ${Number(layoutPpf(layout).toPrecision(12))} µmol/s together.`);
    return text;
  },
});
