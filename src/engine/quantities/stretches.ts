/**
 * Where the parts of a formula stand in its text. The calculator's trees hold no positions; its tokens do, and the leaves
 * of a tree come in the order of the tokens, so both are walked together.
 */
import type { Ast, Token } from '../hyper.ts';

export interface Stretch {
  readonly start: number;
  readonly end: number;
}

/** Stretches of the text with its equals sign. Throws when tree and tokens are not of one formula. */
export function stretchesOf(ast: Ast, tokens: readonly Token[]): ReadonlyMap<Ast, Stretch> {
  const stretches = new Map<Ast, Stretch>();
  const meaning = tokens.filter((token) => token.tokenType.name !== 'WhiteSpace');
  let next = 0;
  let end = 0;

  const take = (): void => {
    const token = meaning[next++];
    if (!token) throw new Error('a formula has fewer tokens than its tree');
    end = token.startOffset + token.image.length + 1;
  };

  const inside = (part: Ast): void => {
    if (part.type === 'EMPTY') return;
    if (part.type === 'PARENTHESES') {
      take();
      walk(part.expression);
      take();
    } else if (part.type === 'FUNCTION_CALL') {
      take();
      for (const [i, arg] of part.args.entries()) {
        if (i > 0) take();
        walk(arg);
      }
      take();
    } else if (part.type === 'ARRAY') {
      for (const row of part.args) {
        for (const cell of row) {
          take();
          walk(cell);
        }
      }
      take();
    } else if (part.type === 'MINUS_UNARY_OP' || part.type === 'PLUS_UNARY_OP') {
      take();
      walk(part.value);
    } else if (part.type === 'PERCENT_OP') {
      walk(part.value);
      take();
    } else if ('left' in part) {
      walk(part.left);
      take();
      walk(part.right);
    } else if (part.type === 'CELL_RANGE') {
      take();
      take();
      take();
    } else take();
  };

  const walk = (part: Ast): void => {
    const start = (meaning[next]?.startOffset ?? 0) + 1;
    inside(part);
    stretches.set(part, { start, end });
  };

  walk(ast);
  if (next !== meaning.length) throw new Error('a formula has more tokens than its tree');
  return stretches;
}

/** Puts texts in the place of parts, from right to left so that no position moves. */
export function spliced(formula: string, pieces: readonly { readonly stretch: Stretch; readonly text: string }[]): string {
  let out = formula;
  for (const { stretch, text } of [...pieces].sort((a, b) => b.stretch.start - a.stretch.start))
    out = out.slice(0, stretch.start) + text + out.slice(stretch.end);
  return out;
}
