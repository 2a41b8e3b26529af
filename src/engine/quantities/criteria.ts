/** Criteria of COUNTIF and its kin: `">160"`, `">"&C5`, a value, a text. */
import { unitIn } from '../../../functions/quantity-text.ts';
import type { Ast } from '../hyper.ts';
import type { FormulaParts } from './formula-parts.ts';
import { any, type Fail, isQuantity, type Kind, kindOfUnit, kindWords, type NumberKind } from './kind.ts';
import { isWritten } from './written.ts';

const CRITERION = /^(<=|>=|<>|=|<|>)?\s*([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)(?:\s*(\S.*))?$/i;
const COMPARISON = /^(<=|>=|<>|=|<|>)$/;

/** What is wrong with a criterion for the cells it is held against. */
export function criterion(inference: FormulaParts, name: string, range: Ast, condition: Ast): Kind | undefined {
  const among = inference.infer(range);
  if (among.is === 'fail') return among;
  if (among.is === 'mixed') return inference.mixed(name, range, among);
  if (condition.type === 'CONCATENATE_OP' && condition.left.type === 'STRING' && COMPARISON.test(condition.left.value)) {
    return beside(inference, name, range, among, condition.right);
  }
  if (condition.type === 'STRING') return isQuantity(among) ? written(inference, name, range, among, condition) : undefined;
  return beside(inference, name, range, among, condition);
}

function beside(inference: FormulaParts, name: string, range: Ast, among: Kind, value: Ast): Kind | undefined {
  const kind = inference.infer(value);
  if (kind.is === 'fail') return kind;
  if (kind.is === 'text' && isQuantity(among)) return unseen(inference, name, range, among, value);
  if (kind.is === 'text' || kind === any || among.is === 'text' || among === any || kind === among) return undefined;
  if (!isQuantity(kind) && !isQuantity(among)) return undefined;
  const unitText = among.is === 'number' ? inference.shown(range, among) : '';
  if (isQuantity(among) && isWritten(value) && inference.wish(value, unitText, 'beside')) return undefined;
  return inference.fail(
    `${name} holds ${inference.named(value)} against ${kindWords(among)} (${inference.described(range)}).`,
    inference.mendFor(value, kind, among, unitText),
  );
}

/** A text that is not written in the formula may hold a number, which would be held against base units. */
function unseen(inference: FormulaParts, name: string, range: Ast, among: NumberKind, value: Ast): Fail | undefined {
  const text = value.type === 'CELL_REFERENCE' ? inference.host.content(value.reference.toSimpleCellAddress(inference.at)) : undefined;
  if (text?.kind === 'text' && !/\d/.test(text.text)) return undefined;
  return inference.fail(
    `${name} holds the text ${inference.described(value)} against ${kindWords(among)} (${inference.described(range)}): write the comparison in quotes and the quantity after it, such as ">"&C5.`,
  );
}

/** `">160"` held against quantities: a number without its unit, or with it inside the quotes. */
function written(inference: FormulaParts, name: string, range: Ast, among: NumberKind, condition: Extract<Ast, { type: 'STRING' }>): Fail | undefined {
  const match = CRITERION.exec(condition.value);
  if (!match) return undefined;
  const [, comparison = '', number = '', unitText] = match;
  const shown = inference.shown(range, among);
  if (unitText === undefined) {
    if (Number(number) === 0 && !among.reading) return undefined;
    if (inference.wish(condition, shown, 'beside', { comparison, number })) return undefined;
    return inference.fail(
      `${name} holds the plain number ${number} against ${kindWords(among)} (${inference.described(range)}).`,
      inference.rewritten(condition, () => criterionText({ comparison, number }, shown)),
    );
  }
  const found = unitIn(unitText, inference.host.currency);
  if (!found) return undefined;
  if (kindOfUnit(found) === among) {
    if (inference.wish(condition, found.symbol, 'beside', { comparison, number })) return undefined;
    return inference.fail(
      `${name}: a unit can not stand inside quotes.`,
      inference.rewritten(condition, () => criterionText({ comparison, number }, found.symbol)),
    );
  }
  return inference.fail(
    `${name} holds ${kindWords(kindOfUnit(found))} (${number} ${found.symbol}) against ${kindWords(among)} (${inference.described(range)}).`,
  );
}

/** The criterion with its unit: `">"&UNIT(160,"µmol/m²/s")`. */
export function criterionText({ comparison, number }: { readonly comparison: string; readonly number: string }, unitText: string): string {
  const quantity = `UNIT(${number.replace(/^\+/, '')},"${unitText}")`;
  return comparison === '' || comparison === '=' ? quantity : `"${comparison}"&${quantity}`;
}
