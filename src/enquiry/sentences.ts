/** A text in sentences: where each begins and ends. A point after a short unit or between digits ends none. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
}

const END = /[!?;\n]|\.(?=\s|$)/gu;
/** Before a number they end none: `max. 0.85 m`. */
const SHORT_OF_NUMBER = /(?:^|[^\p{L}])(?:approx|ca|no|max|min|lat|temp)$/u;
const SHORT = /(?:^|[^\p{L}])(?:ft|in|ins|approx|ca|no|e\.g|i\.e|max|min|sq|incl|lat|temp|hrs?|approx|etc|vs|nr)$/u;
/** Longer ones are cut, so that what is searched around an amount stays short. */
const LONGEST = 600;

export function sentences(text: string): readonly Stretch[] {
  const found: Stretch[] = [];
  let from = 0;
  const add = (to: number): void => {
    for (let at = from; at < to; at += LONGEST) found.push({ from: at, to: Math.min(to, at + LONGEST) });
    from = to;
  };
  for (const { 0: mark, index } of text.matchAll(END)) {
    if (mark === '.' && SHORT.test(text.slice(Math.max(from, index - 8), index)) && /^\. ?\p{Ll}|^\.$/u.test(text.slice(index, index + 3))) continue;
    if (mark === '.' && SHORT_OF_NUMBER.test(text.slice(Math.max(from, index - 8), index)) && /^\. ?\d/u.test(text.slice(index, index + 3))) continue;
    add(index + 1);
  }
  add(text.length);
  return found;
}

/** The one that holds a place: looked for from the last one on, as places come in their order. */
export function finder(stretches: readonly Stretch[]): (place: number) => Stretch {
  let i = 0;
  return (place) => {
    if ((stretches[i]?.from ?? 0) > place) i = 0;
    while (i < stretches.length - 1 && (stretches[i]?.to ?? 0) <= place) i++;
    return stretches[i] ?? { from: 0, to: 0 };
  };
}

/** Whether a stretch shares something with one of these, which stand in their order. Quick where it is asked in order. */
export function overlaps(taken: readonly Stretch[]): (one: Stretch) => boolean {
  let i = 0;
  return ({ from, to }) => {
    if ((taken[i - 1]?.to ?? 0) > from) i = 0;
    while (i < taken.length && (taken[i]?.to ?? 0) <= from) i++;
    const one = taken[i];
    return one !== undefined && one.from < to && from < one.to;
  };
}
