/** Many layouts as dots, what each costs against how even its light is, the ones that stand out named. Not a kind of picture for pages: no cells are read. */
import { html, nothing, svg, type TemplateResult } from 'lit/html.js';
import { ticks } from './scale.ts';

export interface Dot {
  /** In the unit that the picture says. */
  readonly cost: number;
  readonly evenness: number;
}

export interface NamedDot extends Dot {
  /** What stands beside it: A, B, C; several where they are one layout. */
  readonly name: string;
}

export interface CostAgainstEvenness {
  readonly dots: readonly Dot[];
  readonly named: readonly NamedDot[];
  /** The one that is looked at. */
  readonly picked: Dot | undefined;
  /** The unit of the cost. */
  readonly unit: string;
  /** px */
  readonly width: number;
}

const MARGIN = { left: 40, right: 16, top: 18, bottom: 38 };
/** px of a dot: more than one in such a square are drawn as one. */
const DOT = 4;
/** px within which a dot is meant. */
const NEAR = 24;

/** Where amounts lie in the picture. */
interface Scale {
  readonly height: number;
  readonly w: number;
  readonly h: number;
  readonly x: (cost: number) => number;
  readonly y: (evenness: number) => number;
  readonly cost: readonly [number, number];
  readonly evenness: readonly [number, number];
}

function scaleOf({ dots, named, picked, width }: CostAgainstEvenness): Scale {
  const all = [...dots, ...named, ...(picked ? [picked] : [])];
  const height = Math.round(Math.min(300, Math.max(190, width * 0.42)));
  const [w, h] = [width - MARGIN.left - MARGIN.right, height - MARGIN.top - MARGIN.bottom];
  const cost = span(all.map((dot) => dot.cost));
  const evenness = span(all.map((dot) => dot.evenness));
  return {
    height,
    w,
    h,
    cost,
    evenness,
    x: (v) => ((v - cost[0]) / (cost[1] - cost[0])) * w,
    y: (v) => h - ((v - evenness[0]) / (evenness[1] - evenness[0])) * h,
  };
}

/** From the least to the greatest, with room at both ends, so that no dot lies on an axis. */
function span(amounts: readonly number[]): readonly [number, number] {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const amount of amounts) [from, to] = [Math.min(from, amount), Math.max(to, amount)];
  if (!Number.isFinite(from)) return [0, 1];
  const room = (to - from) * 0.05 || Math.abs(to) * 0.05 || 1;
  return [from - room, to + room];
}

/** The dot that is nearest to a place in the picture, in px from its upper left corner, by its place among the dots; undefined where none is near. */
export function dotAt(picture: CostAgainstEvenness, left: number, top: number): number | undefined {
  const { x, y } = scaleOf(picture);
  let [found, least]: [number | undefined, number] = [undefined, NEAR ** 2];
  for (const [i, dot] of picture.dots.entries()) {
    const away = (x(dot.cost) + MARGIN.left - left) ** 2 + (y(dot.evenness) + MARGIN.top - top) ** 2;
    if (away < least) [found, least] = [i, away];
  }
  return found;
}

export function drawCostAgainstEvenness(picture: CostAgainstEvenness): TemplateResult {
  const { dots, named, picked, unit, width } = picture;
  const scale = scaleOf(picture);
  const { x, y, w, h } = scale;
  const name = wordsOf(picture);
  return html`<svg class="cost-evenness" viewBox="0 0 ${width} ${scale.height}" role="img" aria-label=${name}>
    <title>${name}</title>
    <g transform="translate(${MARGIN.left},${MARGIN.top})">
      <path class="axis" d="M0,0V${round(h)}H${round(w)}" fill="none" />
      ${ticks(...scale.evenness, Math.max(2, Math.floor(h / 36))).map((v) => svg`<path class="axis" d="M0,${round(y(v))}h-4" /><text class="tick" x="-7" y=${round(y(v) + 4)} font-size="11" text-anchor="end">${v}</text>`)}
      ${ticks(...scale.cost, Math.max(2, Math.floor(w / 80))).map((v) => svg`<path class="axis" d="M${round(x(v))},${round(h)}v4" /><text class="tick" x=${round(x(v))} y=${round(h + 16)} font-size="11" text-anchor="middle">${v}</text>`)}
      <text class="tick" x=${round(w)} y=${round(h + 33)} font-size="11" text-anchor="end">cost, ${unit}</text>
      <text class="tick" x="5" y="-6" font-size="11">evenness</text>
      <path class="dots" d=${path(dots, scale)} />
      ${picked ? svg`<circle class="picked" cx=${round(x(picked.cost))} cy=${round(y(picked.evenness))} r="7" />` : nothing}
      ${spread(named, scale).map(namedDot)}
    </g>
  </svg>`;
}

/** All dots as one line of squares: thousands of elements would be drawn for seconds. */
function path(dots: readonly Dot[], { x, y }: Scale): string {
  const seen = new Set<string>();
  for (const dot of dots) seen.add(`M${Math.round(x(dot.cost) / DOT) * DOT - DOT / 2},${Math.round(y(dot.evenness) / DOT) * DOT - DOT / 2}`);
  return [...seen].map((at) => `${at}h${DOT - 1}v${DOT - 1}h${1 - DOT}z`).join('');
}

interface Placed {
  readonly name: string;
  readonly dot: readonly [left: number, top: number];
  readonly text: readonly [left: number, top: number];
  readonly anchor: 'start' | 'middle' | 'end';
}

/** px that a letter takes, and a line. */
const LETTER = 7.6;
const LINE = 14;
/** Where a name may stand beside its dot, the best first. */
const BESIDE: readonly (readonly [left: number, top: number, anchor: Placed['anchor']])[] = [
  [9, 4.5, 'start'],
  [-9, 4.5, 'end'],
  [0, -11, 'middle'],
  [0, 21, 'middle'],
  [9, -12, 'start'],
  [-9, -12, 'end'],
];

/** Each name where it lies over no other and within the picture, if there is such a place. */
function spread(named: readonly NamedDot[], { x, y, w, h }: Scale): readonly Placed[] {
  const boxes: (readonly [number, number, number, number])[] = named.map((dot) => [x(dot.cost) - 6, y(dot.evenness) - 6, x(dot.cost) + 6, y(dot.evenness) + 6]);
  return named.map(({ name, cost, evenness }) => {
    const dot = [x(cost), y(evenness)] as const;
    const wide = name.length * LETTER;
    const boxOf = ([left, top, anchor]: (typeof BESIDE)[number]): readonly [number, number, number, number] => {
      const from = dot[0] + left - (anchor === 'end' ? wide : anchor === 'middle' ? wide / 2 : 0);
      return [from, dot[1] + top - LINE, from + wide, dot[1] + top];
    };
    const isFree = (place: (typeof BESIDE)[number]): boolean => {
      const [l, t, r, b] = boxOf(place);
      return l >= 0 && r <= w + MARGIN.right && t >= -MARGIN.top && b <= h && boxes.every(([L, T, R, B]) => r <= L || R <= l || b <= T || B <= t);
    };
    const place = BESIDE.find(isFree) ?? (BESIDE[0] as (typeof BESIDE)[number]);
    boxes.push(boxOf(place));
    return { name, dot, text: [dot[0] + place[0], dot[1] + place[1]], anchor: place[2] };
  });
}

const namedDot = ({ name, dot, text, anchor }: Placed): TemplateResult =>
  svg`<circle class="named" cx=${round(dot[0])} cy=${round(dot[1])} r="4.5" /><text x=${round(text[0])} y=${round(text[1])} font-size="13" font-weight="700" text-anchor=${anchor}>${name}</text>`;

function wordsOf({ dots, named, unit }: CostAgainstEvenness): string {
  if (dots.length === 0) return 'Cost against evenness: no layout to show';
  const range = (of: (dot: Dot) => number, digits: number): string => {
    let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const dot of dots) [low, high] = [Math.min(low, of(dot)), Math.max(high, of(dot))];
    return `${low.toFixed(digits)} to ${high.toFixed(digits)}`;
  };
  const costs = range((dot) => dot.cost, 0);
  const evenness = range((dot) => dot.evenness, 2);
  const marks = named.map((dot) => `${dot.name}: ${dot.cost.toFixed(0)} ${unit}, evenness ${dot.evenness.toFixed(2)}`);
  const all = `Cost against evenness of ${dots.length === 1 ? 'one layout' : `${dots.length} layouts`}: ${costs} ${unit}, evenness ${evenness}`;
  return [all, ...marks].join('. ');
}

const round = (v: number): number => Math.round(v * 10) / 10;
