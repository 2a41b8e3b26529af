import { say } from '../check-args.ts';
import { calc, define, refuse } from '../define.ts';

const SIZE = { unit: 'm', atLeast: 0, atMost: 100 } as const;

export const FIXTURE_SHADE = define({
  name: 'FIXTURE.SHADE',
  family: 'Sun and greenhouse',
  summary: 'Share of the sun’s light that hung fixtures keep from the crop.',
  use: 'Their share of the plan: exact for flat fixtures over a large area. A point shades 0 by this. Their depth, supplies, cables and rails add to it.',
  formula: 'count · length · width / area',
  params: [
    { name: 'count', quantity: 'number of fixtures', unit: '1', meaning: 'over the area', atLeast: 0, atMost: 1e5, whole: true },
    { ...SIZE, name: 'length', quantity: 'length of a fixture', meaning: 'of its housing' },
    { ...SIZE, name: 'width', quantity: 'width of a fixture', meaning: 'of its housing' },
    { name: 'area', quantity: 'area', unit: 'm²', meaning: 'that they hang over', above: 0, atMost: 1e6 },
  ],
  returns: { quantity: 'share shaded', unit: '1' },
  source: 'Closed form: plan areas',
  examples: [{ formula: 'FIXTURE.SHADE(8,1.2,0.05,2.88)', gives: 0.1666666666667 }],
  work: ([count, length, width, area], show) => {
    const value = (count * length * width) / area;
    if (value > 1) return refuse(`FIXTURE.SHADE: the fixtures would cover ${say(count * length * width)} m² and the area is ${say(area)} m².`);
    if (count > 0 && value === 0) show?.note('A point or a line has no face: its housing shades all the same, and is not counted.');
    show?.expression('plan of the fixtures over the area', calc`${count} * ${length} * ${width} / ${area}`, value, '1');
    return value;
  },
});
