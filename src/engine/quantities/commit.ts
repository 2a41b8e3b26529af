/** Writing units to bare numbers when a formula is committed. */
import { unitIn } from '../../../functions/quantity-text.ts';
import type { Position } from '../addresses.ts';
import { toEditable } from '../formula-text.ts';
import { criterionText } from './criteria.ts';
import type { CellKinds, Wish } from './formula-parts.ts';
import type { QuantityHost } from './host.ts';
import { Inference } from './infer.ts';
import type { Fail, Kind } from './kind.ts';
import { spliced, stretchesOf } from './stretches.ts';

/** A formula ready to be stored, or why it can't be read. */
export type Committed =
  | {
      readonly content: string;
      /** "200 read as 200 µmol/m²/s". */
      readonly said?: string;
      readonly kind: Kind;
      /** The unit in which the result is shown where none is set. */
      readonly unit?: string;
      /** It can be stored, but its cell will show this. */
      readonly fault?: Fail;
    }
  | { readonly refused: string };

export function committed(host: QuantityHost, cells: CellKinds, canonical: string, at: Position): Committed {
  const wishes: Wish[] = [];
  const parsed = host.parse(canonical, at);
  if (parsed.errors.length > 0) return { refused: 'This formula can not be read: something is missing, or a sign is where a value belongs.' };
  const first = new Inference(host, cells, at, canonical, parsed.ast, wishes);
  const kind = first.result();
  if (wishes.length === 0) return answer(canonical, [], first, kind);

  const stretches = stretchesOf(parsed.ast, host.tokens(canonical));
  const fill = (granted: readonly Wish[]): { readonly content: string; readonly said: readonly string[] } => {
    const pieces = new Map<string, { stretch: { start: number; end: number }; text: string }>();
    const said = new Set<string>();
    for (const wish of granted) {
      const stretch = stretches.get(wish.node);
      if (!stretch || pieces.has(`${stretch.start}`)) continue;
      const written = canonical.slice(stretch.start, stretch.end);
      const digits = written.replaceAll(/[()\s+%]/g, '');
      const text = wish.criterion ? criterionText(wish.criterion, wish.unit) : `UNIT(${digits},"${wish.unit}")`;
      pieces.set(`${stretch.start}`, { stretch, text });
      said.add(`${written} read as ${wish.criterion ? toEditable(`=${text}`, host.currency).slice(1) : `${digits} ${wish.unit}`}`);
    }
    return { content: spliced(canonical, [...pieces.values()]), said: [...said] };
  };

  const all = fill(wishes);
  const checked = inferred(host, cells, all.content, at);
  if (checked.result().is !== 'fail' || wishes.every((wish) => wish.sort === 'parameter')) return answer(all.content, all.said, checked, checked.result());
  // Beside a quantity a unit is written only when the whole formula then checks.
  const some = fill(wishes.filter((wish) => wish.sort === 'parameter'));
  const rest = inferred(host, cells, some.content, at);
  return answer(some.content, some.said, rest, rest.result());
}

const inferred = (host: QuantityHost, cells: CellKinds, formula: string, at: Position): Inference =>
  new Inference(host, cells, at, formula, host.parse(formula, at).ast);

function answer(content: string, said: readonly string[], inference: Inference, kind: ReturnType<Inference['result']>): Committed {
  const shown = inference.shown(inference.root, kind);
  return {
    content,
    kind,
    ...(said.length > 0 && { said: said.join(', ') }),
    ...(shown !== '' && unitIn(shown, inference.host.currency) && { unit: shown }),
    ...(kind.is === 'fail' && { fault: kind }),
  };
}
