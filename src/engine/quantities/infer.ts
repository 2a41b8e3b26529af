/**
 * The kind of a formula from its parts. One rule a sort of node; functions are in standard.ts and ours.ts.
 *
 * Written numbers: where a quantity is wanted and a bare number is written, a commit notes which unit is meant (a wish);
 * at any other time the same is a mistake with a mend.
 */
import { declaredIn, usualUnit } from '../../../functions/measures.ts';
import { need, over, PLAIN, power, times, unit } from '../../../functions/units.ts';
import type { Position } from '../addresses.ts';
import type { Ast } from '../hyper.ts';
import { FormulaInCell } from './formula.ts';
import type { CellKinds, FormulaParts, OneKindOptions, Wish } from './formula-parts.ts';
import type { QuantityHost } from './host.ts';
import {
  any,
  digitsAsText,
  type Fail,
  isPlain,
  isQuantity,
  type Kind,
  kindOfText,
  kindWords,
  type NumberKind,
  numberKind,
  numeric,
  plainNumber,
  samePosition,
  text,
  yesOrNo,
} from './kind.ts';
import { ourFunction } from './ours.ts';
import { shownUnit } from './shown.ts';
import { standardFunction } from './standard-kinds.ts';
import { constant, isWritten } from './written.ts';

type Call = Extract<Ast, { type: 'FUNCTION_CALL' }>;
type Binary = Extract<Ast, { left: Ast }>;

export class Inference extends FormulaInCell implements FormulaParts {
  readonly cells: CellKinds;
  private readonly wishes: Wish[] | undefined;
  private known: Map<Ast, Kind> | undefined;

  constructor(host: QuantityHost, cells: CellKinds, at: Position, formula: string, root: Ast, wishes?: Wish[]) {
    super(host, at, formula, root);
    this.cells = cells;
    this.wishes = wishes;
  }

  /** The kind of the whole formula. */
  result(): Kind {
    return this.infer(this.root);
  }

  infer(ast: Ast): Kind {
    // What the cells know already is not kept again.
    if (ast.type === 'CELL_REFERENCE' || ast.type === 'NUMBER') return this.workOut(ast);
    const known = this.known?.get(ast);
    if (known) return known;
    const kind = this.workOut(ast);
    this.known ??= new Map();
    this.known.set(ast, kind);
    return kind;
  }

  private workOut(ast: Ast): Kind {
    switch (ast.type) {
      case 'NUMBER':
        return ast.value === 0 ? any : plainNumber;
      case 'STRING':
        return kindOfText(ast.value);
      case 'CELL_REFERENCE':
        return this.cells.kindOf(ast.reference.toSimpleCellAddress(this.at));
      case 'CELL_RANGE':
      case 'NAMED_EXPRESSION': {
        const span = this.span(ast);
        if (!span) return ast.type === 'NAMED_EXPRESSION' && /^(true|false)$/i.test(ast.expressionName) ? yesOrNo : any;
        return samePosition(span.start, span.end) ? this.cells.kindOf(span.start) : this.cells.kindOfSpan(span);
      }
      case 'PARENTHESES':
        return this.infer(ast.expression);
      case 'PLUS_UNARY_OP':
        return numeric(this.single(ast.value, 'A plus sign'));
      case 'MINUS_UNARY_OP': {
        const kind = numeric(this.single(ast.value, 'A minus sign'));
        return kind.is === 'number' && kind.reading
          ? this.fail(`This turns round the sign of ${this.named(ast.value)}: write the temperature with its own sign, such as -5 °C.`)
          : kind;
      }
      case 'PERCENT_OP': {
        const kind = this.single(ast.value, 'A percent sign');
        return kind.is === 'fail' || isPlain(kind)
          ? kind.is === 'fail'
            ? kind
            : plainNumber
          : this.fail(`A percent sign stands behind ${this.named(ast.value)}: it goes with plain numbers.`);
      }
      case 'CONCATENATE_OP':
        return this.joinTexts([ast.left, ast.right], '&');
      case 'PLUS_OP':
      case 'MINUS_OP':
        return this.sum(ast);
      case 'TIMES_OP':
      case 'DIV_OP':
        return this.product(ast);
      case 'POWER_OP':
        return this.raised(ast.left, ast.right);
      case 'EQUALS_OP':
      case 'NOT_EQUAL_OP':
      case 'GREATER_THAN_OP':
      case 'LESS_THAN_OP':
      case 'GREATER_THAN_OR_EQUAL_OP':
      case 'LESS_THAN_OR_EQUAL_OP': {
        const kind = this.oneKind([ast.left, ast.right], { what: 'This compares', readings: 'allowed' });
        return kind.is === 'fail' ? kind : yesOrNo;
      }
      case 'ARRAY':
        return this.oneKind(ast.args.flat(), { what: 'This list holds', readings: 'allowed' });
      case 'FUNCTION_CALL':
        return this.call(ast);
      default:
        return any;
    }
  }

  private call(ast: Call): Kind {
    return ourFunction(this, ast) ?? standardFunction(this, ast);
  }

  /** One operand of arithmetic: no text, no cells of several kinds. */
  private single(ast: Ast, what: string): Kind {
    const kind = this.infer(ast);
    if (kind.is === 'mixed') return this.mixed(what, ast, kind);
    if (kind.is === 'text') return this.fail(`${what} takes numbers; ${this.described(ast)} is text.`);
    return kind;
  }

  private sum(ast: Binary): Kind {
    const adds = ast.type === 'PLUS_OP';
    const what = adds ? 'A sum' : 'A difference';
    const left = this.single(ast.left, what);
    if (left.is === 'fail') return left;
    const right = this.single(ast.right, what);
    if (right.is === 'fail') return right;
    const [l, r] = [left.is === 'number' && left.reading, right.is === 'number' && right.reading];
    if (l || r) return this.withReadings(ast, left, right, l, r);
    return numeric(this.oneKind([ast.left, ast.right], { what: adds ? 'This adds' : 'This takes', readings: 'refused' }));
  }

  /** Reading − reading is a difference; reading ± difference is a reading; all else is none. */
  private withReadings(ast: Binary, left: Kind, right: Kind, l: boolean, r: boolean): Kind {
    const adds = ast.type === 'PLUS_OP';
    const difference = numberKind(need('K').dimension);
    if (l && r) {
      if (!adds) return difference;
      return this.fail(
        `This adds ${this.named(ast.left)} to ${this.named(ast.right)}: two temperatures can’t be added. Take one from the other, or average them.`,
      );
    }
    const [reading, other, kind, node] = l ? [left, right, right, ast.right] : [right, left, left, ast.left];
    if (r && !adds) return this.fail(`This takes ${this.named(ast.right)} from ${this.named(ast.left)}: a temperature can only be taken from a temperature.`);
    if (other === any || kind === difference) return reading;
    if (isWritten(node) && this.wish(node, 'K', 'beside')) return reading;
    return this.fail(
      `${adds ? 'This adds' : 'This takes'} ${this.named(ast.left)} ${adds ? 'and' : 'less'} ${this.named(ast.right)}: to a temperature only a temperature difference in K can be added.`,
      this.mendFor(node, kind, difference, 'K'),
    );
  }

  private product(ast: Binary): Kind {
    const left = this.single(ast.left, 'A product');
    if (left.is === 'fail') return left;
    const right = this.single(ast.right, 'A product');
    if (right.is === 'fail') return right;
    return this.multiplied([ast.left, ast.right], ast.type === 'DIV_OP');
  }

  /** The kind of a product; with `divides`, of the first by the second. */
  multiplied(parts: readonly Ast[], divides: boolean): Kind {
    let of = PLAIN;
    let blank = false;
    for (const [i, part] of parts.entries()) {
      const kind = this.single(part, 'A product');
      if (kind.is === 'fail') return kind;
      if (kind === any) blank = true;
      if (kind.is !== 'number') continue;
      if (kind.reading)
        return this.fail(
          `This ${divides ? 'divides' : 'multiplies'} with ${this.named(part)}: a temperature can’t be multiplied or divided. Take a difference of two temperatures.`,
        );
      of = divides && i > 0 ? over(of, kind.dimension) : times(of, kind.dimension);
    }
    // Nothing is known of a blank factor but that the product is 0.
    return blank ? any : numberKind(of);
  }

  raised(base: Ast, exponent: Ast): Kind {
    const left = this.single(base, 'A power');
    if (left.is === 'fail') return left;
    const right = this.single(exponent, 'A power');
    if (right.is === 'fail') return right;
    if (isQuantity(right)) return this.fail(`The power here is ${this.named(exponent)}: a power is a plain number.`);
    if (!isQuantity(left)) return left === any ? any : plainNumber;
    if (left.reading) return this.fail(`This raises ${this.named(base)} to a power: a temperature has no powers.`);
    const n = constant(exponent);
    if (n === undefined)
      return this.fail(`This raises ${this.named(base)} to a power that is worked out: a quantity's power is a written number, such as 2 or 1/2.`);
    return this.root12(left, n, base);
  }

  /** A power of a dimension, where it comes out in twelfths, the finest that can be told apart. */
  private root12(kind: NumberKind, n: number, base: Ast): Kind {
    if (kind.dimension.powers.every((p) => Math.abs(p * n * 12 - Math.round(p * n * 12)) < 1e-9)) return numberKind(power(kind.dimension, n));
    return this.fail(`This raises ${this.named(base)} to the power ${n}, which gives no quantity that has a name. Use its plain number with NUMBER.IN.`);
  }

  /** Parts that must be of one kind. Written numbers are looked at last: they take the kind of the others. */
  oneKind(parts: readonly Ast[], options: OneKindOptions): Kind {
    let found: Kind = any;
    let by: Ast | undefined;
    let words: Kind | undefined;
    let yes: Ast | undefined;
    let digits: Ast | undefined;
    const written: Ast[] = [];
    for (const part of parts) {
      const kind = this.infer(part);
      if (kind.is === 'fail') return kind;
      if (kind.is === 'mixed') return this.mixed(options.what, part, kind);
      if (kind.is === 'text' || kind.is === 'yes or no') {
        if (kind === yesOrNo && !this.isRange(part)) yes ??= part;
        if (kind === digitsAsText) digits ??= part;
        words = words === undefined || words === kind ? kind : text;
        continue;
      }
      if (isWritten(part)) {
        written.push(part);
        continue;
      }
      if (kind === any) continue;
      if (options.readings === 'refused' && kind.is === 'number' && kind.reading) {
        return this.fail(`${options.what} ${this.named(part)}: temperatures can’t be added up. Average them, or take differences.`);
      }
      if (found === any) [found, by] = [kind, part];
      else if (found !== kind && by) return this.clash(options.what, by, found, part, kind);
    }
    if (by && isQuantity(found)) {
      const shown = this.shown(by, found);
      for (const part of written) {
        if (constant(part) === 0 && !found.reading) continue;
        if (!this.wish(part, shown, 'beside')) return this.clash(options.what, by, found, part, plainNumber);
      }
      // TRUE counts as 1 in a sum: beside a quantity it is a plain number like any other. A branch of IF may give it.
      if (digits) return this.clash(options.what, by, found, digits, digitsAsText);
      if (yes && options.what !== 'IF gives') return this.clash(options.what, by, found, yes, yesOrNo);
      return found;
    }
    if (found === any && written.some((part) => constant(part) !== 0)) found = plainNumber;
    if (found === any && words) return words;
    return found;
  }

  private clash(what: string, a: Ast, ka: Kind, b: Ast, kb: Kind): Fail {
    const [first, second] = [this.named(a), this.named(b)];
    const sentence =
      what === 'This adds'
        ? `${what} ${first} to ${second}.`
        : what === 'This takes'
          ? `${what} ${second} from ${first}.`
          : what === 'This compares'
            ? `${what} ${first} with ${second}.`
            : `${what} ${first} and ${second}: they must be of one kind.`;
    if (ka === plainNumber && kb.is === 'number') return this.fail(sentence, this.mendFor(a, ka, kb, this.shown(b, kb)));
    if (ka.is === 'number') return this.fail(sentence, this.mendFor(b, kb, ka, this.shown(a, ka)));
    return this.fail(sentence);
  }

  mixed(what: string, ast: Ast, kind: Extract<Kind, { is: 'mixed' }>): Fail {
    const { one, other } = kind;
    return this.fail(
      `${what}: ${this.described(ast)} holds ${kindWords(one.kind)} (${this.cellWords(one.at)}) and ${kindWords(other.kind)} (${this.cellWords(other.at)}), and one kind is needed.`,
    );
  }

  /** An argument that a function declares to be a quantity, with the unit that is written to a bare number. */
  wanted(ast: Ast, want: NumberKind, unitText: string, what: string): Fail | undefined {
    const kind = this.infer(ast);
    if (kind.is === 'fail') return kind;
    if (kind === want) return undefined;
    if (kind === any && !(want.reading && isWritten(ast))) return undefined;
    if (kind === yesOrNo && want === plainNumber) return undefined;
    // Text has no quantity to be wrong in: the function itself says that a number is needed.
    if (kind.is === 'text') return undefined;
    if (kind.is === 'mixed') return this.mixed(what, ast, kind);
    if (isQuantity(want) && isWritten(ast) && this.wish(ast, unitText, 'parameter')) return undefined;
    // `6%` where a share per time is wanted: of no other quantity is there a percent.
    const percent = `%${unitText}`;
    if (ast.type === 'PERCENT_OP' && isWritten(ast.value) && unitText.startsWith('/') && unit(percent) && this.wish(ast, percent, 'parameter'))
      return undefined;
    const such = unitText === '' ? '' : ` such as 1 ${declaredIn(unitText, this.host.measures)}`;
    return this.fail(`${what} needs ${kindWords(want)}${such}; ${this.described(ast)} is ${kindWords(kind)}.`, this.mendFor(ast, kind, want, unitText));
  }

  /** An argument that must be no quantity. */
  plain(ast: Ast, name: string): Fail | undefined {
    const kind = this.infer(ast);
    if (kind.is === 'fail') return kind;
    if (kind.is === 'mixed') return this.mixed(name, ast, kind);
    if (!isQuantity(kind)) return undefined;
    return this.fail(
      `${name} takes plain numbers; ${this.described(ast)} is ${kindWords(kind)}. NUMBER.IN gives its plain number in a unit.`,
      this.wrapped(ast, 'NUMBER.IN', this.shown(ast, kind)),
    );
  }

  joinTexts(parts: readonly Ast[], name: string): Kind {
    for (const part of parts) {
      const kind = this.infer(part);
      if (kind.is === 'fail') return kind;
      if (kind.is === 'mixed') return this.mixed(name, part, kind);
      if (isQuantity(kind)) {
        return this.fail(
          `${name} joins texts and plain numbers; ${this.described(part)} is ${kindWords(kind)}. SHOW gives its text with the unit.`,
          this.wrapped(part, 'SHOW', this.shown(part, kind)),
        );
      }
    }
    return text;
  }

  /** Notes the unit for a written number, when this is a commit. */
  wish(ast: Ast, unitText: string, sort: Wish['sort'], criterion?: Wish['criterion']): boolean {
    if (!this.wishes || unitText === '') return false;
    if (ast.type === 'ARRAY') {
      for (const part of ast.args.flat()) this.wish(part, unitText, sort);
    } else this.wishes.push({ node: ast, unit: unitText, sort, ...(criterion && { criterion }) });
    return true;
  }

  /** The unit in which a part of this formula would be shown. */
  override shown(ast: Ast, kind: Kind): string {
    if (kind.is !== 'number') return '';
    return shownUnit(this, ast, kind) ?? usualUnit(kind.dimension, kind.reading, this.host);
  }

  /** "a length (Mount height, B, B7)". */
  named(ast: Ast): string {
    return `${kindWords(this.infer(ast))} (${this.described(ast)})`;
  }
}
