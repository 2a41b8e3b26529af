/** A call of a function of ours: its own `work`, asked directly. What stays the same of its arguments is converted and judged once. */
import { checkArg } from '../../../functions/check-args.ts';
import type { FunctionRecord } from '../../../functions/define.ts';
import { REFUSED } from '../errors.ts';
import { type Ast, CellError, type Inner, plain } from '../hyper.ts';
import { type Argument, answered, asError, taking } from '../register.ts';
import type { Around, Part } from './part.ts';

type Call = Extract<Ast, { type: 'FUNCTION_CALL' }>;

interface Moving {
  readonly place: number;
  readonly take: () => Argument | CellError;
}

/** Undefined where there are arguments that the record has no place for. */
export function ourCall(formula: Around, record: FunctionRecord, call: Call): Part | undefined {
  const { params } = record;
  const still: Argument[] = [];
  const moving: Moving[] = [];
  /** Where an argument that stays the same is an error, nothing after it matters; those before it may be errors too. */
  let error: CellError | undefined;
  for (const [place, ast] of call.args.entries()) {
    const take = taking(record, place);
    const param = params[place] ?? params.at(-1);
    if (!take || !param) return undefined;
    if (ast.type === 'EMPTY') {
      still.push(param.blankAllowed ? null : param.fallback);
      continue;
    }
    const part = formula.part(ast);
    if (part.is === 'work') {
      const { work } = part;
      still.push(undefined);
      moving.push({ place, take: () => take(plain(work())) });
      continue;
    }
    const taken = take(plain(part.value));
    if (taken instanceof CellError) {
      error = taken;
      break;
    }
    still.push(kept(taken));
  }
  if (error === undefined) for (const param of params.slice(call.args.length)) if (!param.repeats) still.push(param.fallback);
  const judged = judging(record, still, new Set(moving.map(({ place }) => place)));
  const context = formula.context;
  const work = (): Inner => {
    const args = still.slice();
    for (const { place, take } of moving) {
      const taken = take();
      if (taken instanceof CellError) return formula.given(taken);
      args[place] = taken;
    }
    if (error) return formula.given(error);
    const wrong = judged(args);
    return formula.given(wrong === undefined ? answered(record, args, context, true) : asError({ word: REFUSED, message: wrong }));
  };
  return { is: 'work', work, single: true };
}

/** A table that is given to each call anew: what wrote on it would be heard of. */
function kept(argument: Argument): Argument {
  if (Array.isArray(argument)) {
    for (const row of argument) Object.freeze(row);
    Object.freeze(argument);
  }
  return argument;
}

/** What is wrong with arguments, the first of them first: those that stay the same are judged here and now. */
function judging(record: FunctionRecord, still: readonly Argument[], moving: ReadonlySet<number>): (args: readonly Argument[]) => string | undefined {
  const steps: ((args: readonly Argument[]) => string | undefined)[] = [];
  const count = Math.max(still.length, record.params.filter((p) => !p.optional).length);
  for (let place = 0; place < count; place++) {
    if (moving.has(place)) {
      steps.push((args) => checkArg(record, place, args[place])?.message);
      continue;
    }
    const wrong = checkArg(record, place, still[place])?.message;
    if (wrong === undefined) continue;
    steps.push(() => wrong);
    break;
  }
  return (args) => {
    for (const step of steps) {
      const wrong = step(args);
      if (wrong !== undefined) return wrong;
    }
    return undefined;
  };
}
