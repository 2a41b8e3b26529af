/** A small parser of formulas: operators by falling strength ^, * /, + −, &, comparisons; calls, ranges, names, texts and numbers. */

export interface Place {
  readonly table: string;
  readonly column: number;
  readonly row: number;
}

export type Node =
  | { readonly is: 'number'; readonly n: number }
  | { readonly is: 'text'; readonly s: string }
  | { readonly is: 'cell'; readonly at: Place }
  | { readonly is: 'range'; readonly from: Place; readonly to: Place }
  | { readonly is: 'name'; readonly name: string }
  /** An argument that is left out is null. */
  | { readonly is: 'call'; readonly name: string; readonly args: readonly (Node | null)[] }
  | { readonly is: 'minus'; readonly of: Node }
  | { readonly is: 'pair'; readonly op: string; readonly left: Node; readonly right: Node };

const TOKEN =
  /\s*(?:(\d+(?:\.\d+)?(?:[eE][+-]?\d+)?)|"((?:[^"]|"")*)"|(?:([A-Za-z]\w*)\.)?\$?([A-Z]{1,2})\$?(\d+)(?![\w.(])|([A-Za-z][\w.]*)|(<=|>=|<>|[-+*/^&=<>(),:]))/y;

interface Token {
  readonly kind: 'number' | 'text' | 'cell' | 'word' | 'sign';
  readonly s: string;
  readonly at?: Place;
}

const columnOf = (letters: string): number => [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1;

function tokens(formula: string, table: string): Token[] {
  const found: Token[] = [];
  TOKEN.lastIndex = 1;
  while (TOKEN.lastIndex < formula.length) {
    const from = TOKEN.lastIndex;
    const match = TOKEN.exec(formula);
    if (!match) throw new Error(`The second evaluator can't read “${formula.slice(from)}” of ${formula}`);
    const [, number, quoted, of, letters, row, word, sign = ''] = match;
    if (number !== undefined) found.push({ kind: 'number', s: number });
    else if (quoted !== undefined) found.push({ kind: 'text', s: quoted.replaceAll('""', '"') });
    else if (letters !== undefined) found.push({ kind: 'cell', s: letters, at: { table: of ?? table, column: columnOf(letters), row: Number(row) - 1 } });
    else found.push(word === undefined ? { kind: 'sign', s: sign } : { kind: 'word', s: word });
  }
  return found;
}

const LEVELS: readonly (readonly string[])[] = [['=', '<>', '<', '>', '<=', '>='], ['&'], ['+', '-'], ['*', '/'], ['^']];

/** The tree of a formula that stands in the table. */
export function parseFormula(formula: string, table: string): Node {
  const list = tokens(formula, table);
  let next = 0;
  const takes = (sign: string): boolean => {
    if (list[next]?.kind !== 'sign' || list[next]?.s !== sign) return false;
    next++;
    return true;
  };
  const must = (sign: string): void => {
    if (!takes(sign)) throw new Error(`A “${sign}” is missing in ${formula}`);
  };
  const level = (depth: number): Node => {
    const ops = LEVELS[depth];
    if (!ops) return single();
    let left = level(depth + 1);
    for (let op = list[next]; op?.kind === 'sign' && ops.includes(op.s); op = list[next]) {
      next++;
      left = { is: 'pair', op: op.s, left, right: level(depth + 1) };
    }
    return left;
  };
  const single = (): Node => {
    if (takes('-')) return { is: 'minus', of: single() };
    if (takes('(')) {
      const inside = level(0);
      must(')');
      return inside;
    }
    const token = list[next++];
    if (token?.kind === 'number') return { is: 'number', n: Number(token.s) };
    if (token?.kind === 'text') return { is: 'text', s: token.s };
    if (token?.kind === 'cell' && token.at) {
      if (!takes(':')) return { is: 'cell', at: token.at };
      const end = list[next++]?.at;
      if (!end) throw new Error(`A range has no end in ${formula}`);
      return { is: 'range', from: token.at, to: { ...end, table: token.at.table } };
    }
    if (token?.kind !== 'word') throw new Error(`Something is missing in ${formula}`);
    if (token.s === 'TRUE' || token.s === 'FALSE') {
      // Both may be written as functions that take nothing.
      if (takes('(')) must(')');
      return { is: 'pair', op: '=', left: { is: 'number', n: 1 }, right: { is: 'number', n: token.s === 'TRUE' ? 1 : 0 } };
    }
    return takes('(') ? { is: 'call', name: token.s, args: args() } : { is: 'name', name: token.s };
  };
  const args = (): (Node | null)[] => {
    const all: (Node | null)[] = [];
    if (takes(')')) return all;
    do {
      const here = list[next];
      all.push(here?.kind === 'sign' && (here.s === ',' || here.s === ')') ? null : level(0));
    } while (takes(','));
    must(')');
    return all;
  };
  const tree = level(0);
  if (next < list.length) throw new Error(`“${list[next]?.s}” is one too many in ${formula}`);
  return tree;
}
