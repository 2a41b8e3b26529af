/** Kinds of our own functions: from what their records declare. */
import type { FunctionRecord, Param } from '../../../functions/define.ts';
import { functions } from '../../../functions/index.ts';
import { declaredIn } from '../../../functions/measures.ts';
import { unitIn } from '../../../functions/quantity-text.ts';
import { withCurrency } from '../../../functions/units.ts';
import type { Ast } from '../hyper.ts';
import type { FormulaParts } from './formula-parts.ts';
import { any, isQuantity, type Kind, kindOfUnit, kindWords, plainNumber, text, yesOrNo } from './kind.ts';

type Call = Extract<Ast, { type: 'FUNCTION_CALL' }>;

const records = new Map<string, FunctionRecord>(functions.map((record) => [record.name, record]));

export const recordNamed = (name: string): FunctionRecord | undefined => records.get(name);

/** The kind of a call of one of our functions; undefined where it is none of ours. */
export function ourFunction(inference: FormulaParts, call: Call): Kind | undefined {
  const record = records.get(call.procedureName);
  if (!record) return undefined;
  const special = SPECIAL[record.name];
  if (special) return special(inference, call);
  let fault: Kind | undefined;
  const alike: Ast[] = [];
  // All arguments are looked at even when one is wrong: each written number gets its unit.
  for (const [i, arg] of call.args.entries()) {
    const param = record.params[i] ?? (record.params.at(-1)?.repeats ? record.params.at(-1) : undefined);
    if (!param || arg.type === 'EMPTY') continue;
    if (param.unit === 'any') alike.push(arg);
    else fault ??= argument(inference, record, param, arg);
  }
  const shared = alike.length > 0 ? inference.oneKind(alike, { what: `${record.name} takes`, readings: 'allowed' }) : any;
  if (fault) return fault;
  if (shared.is === 'fail') return shared;
  return record.returns.unit === 'any' ? shared : declared(inference, record.returns.unit);
}

function argument(inference: FormulaParts, record: FunctionRecord, param: Param, arg: Ast): Kind | undefined {
  const what = `${record.name}${record.params.length > 1 ? ` (${param.name})` : ''}`;
  if (param.unit === 'mixed') return table(inference, record, param, arg);
  const want = declared(inference, param.unit);
  if (want.is === 'number') return inference.wanted(arg, want, want === plainNumber ? '' : withCurrency(param.unit, inference.host.currency), what);
  const kind = inference.infer(arg);
  if (kind.is === 'fail') return kind;
  if (isQuantity(kind)) return inference.fail(`${what} needs ${kindWords(want)}; ${inference.described(arg)} is ${kindWords(kind)}.`);
  return undefined;
}

/** A table holds several kinds: each column is looked at by itself, and each part of a list that is written out. */
function table(inference: FormulaParts, record: FunctionRecord, param: Param, arg: Ast): Kind | undefined {
  const { columns = [] } = param;
  let fault: Kind | undefined;
  if (arg.type === 'ARRAY') {
    for (const row of arg.args) {
      for (const [i, part] of row.entries()) {
        const found = part.type === 'STRING' ? undefined : argument(inference, record, { ...param, unit: columns[i] ?? 'mixed' }, part);
        fault ??= found;
      }
    }
    return fault;
  }
  const kind = inference.infer(arg);
  if (kind.is === 'fail') return kind;
  const span = inference.span(arg);
  for (const [i, unitText] of columns.entries()) {
    const want = declared(inference, unitText);
    if (!span || want.is !== 'number') continue;
    const col = span.start.col + i;
    const held = inference.cells.kindOfSpan({ start: { ...span.start, col }, end: { ...span.end, col } });
    if (held.is === 'mixed') return inference.mixed(record.name, arg, held);
    if (held.is === 'number' && held !== want) {
      const such = `${kindWords(want)} such as 1 ${declaredIn(withCurrency(unitText, inference.host.currency), inference.host.measures)}`;
      return inference.fail(`${record.name} (${param.name}) needs ${such} in column ${i + 1}; it holds ${kindWords(held)}.`);
    }
  }
  return undefined;
}

function declared(inference: FormulaParts, unitText: string): Kind {
  if (unitText === 'text') return text;
  if (unitText === 'yes or no') return yesOrNo;
  const found = unitIn(unitText, inference.host.currency);
  return found ? kindOfUnit(found) : any;
}

/** The unit that a call's second argument writes out; a failure where it is not written or is none. */
function writtenUnit(inference: FormulaParts, call: Call, i: number) {
  const node = call.args[i];
  const name = call.procedureName;
  if (node?.type !== 'STRING') return inference.fail(`${name} needs its unit written out in quotes, such as "in", so that the kind of its result is known.`);
  const found = unitIn(node.value, inference.host.currency);
  return found ?? inference.fail(`${name}: there is no unit “${node.value}” in this book.`);
}

/** These are about units themselves. */
const SPECIAL: Readonly<Record<string, (inference: FormulaParts, call: Call) => Kind>> = {
  UNIT(inference, call) {
    const [number] = call.args;
    const found = writtenUnit(inference, call, 1);
    if ('is' in found || !number) return 'is' in found ? found : any;
    const kind = inference.infer(number);
    if (kind.is === 'fail') return kind;
    if (isQuantity(kind)) {
      return inference.fail(
        `UNIT gives a plain number its unit; ${inference.described(number)} is ${kindWords(kind)} and has one. How it is shown is set on the cell.`,
      );
    }
    return kindOfUnit(found);
  },
  'NUMBER.IN': (inference, call) => inUnit(inference, call, plainNumber),
  SHOW: (inference, call) => {
    const [, , decimals] = call.args;
    return (decimals && inference.plain(decimals, 'SHOW')) ?? inUnit(inference, call, text);
  },
  CONVERT(inference, call) {
    const [number] = call.args;
    return (number && inference.plain(number, 'CONVERT')) ?? plainNumber;
  },
};

function inUnit(inference: FormulaParts, call: Call, gives: Kind): Kind {
  const [quantity] = call.args;
  const found = writtenUnit(inference, call, 1);
  if ('is' in found || !quantity) return 'is' in found ? found : gives;
  const want = kindOfUnit(found);
  const kind = inference.infer(quantity);
  if (kind.is === 'fail') return kind;
  if (kind === want || kind === any || kind.is === 'text' || (kind === yesOrNo && want === plainNumber)) return gives;
  const fault = inference.wanted(quantity, want, found.symbol, call.procedureName);
  return fault ?? gives;
}
