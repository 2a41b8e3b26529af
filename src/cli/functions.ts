import type { FunctionRecord, Param } from '../../functions/define.ts';
import { byFamily } from '../../functions/family.ts';
import { functions } from '../../functions/index.ts';
import { nearest } from '../../functions/nearest.ts';
import { columns, left } from './columns.ts';
import { print } from './output.ts';
import type { Verb } from './verb.ts';
import { WrongUse } from './wrong-use.ts';

export const verb: Verb = {
  usage: '[NAME]',
  about: 'Lists the functions that a formula can use; of one it tells what it takes and gives, its source and an example.',
  options: {},
  async run(operands) {
    const [name, more] = operands;
    if (more !== undefined) throw new WrongUse(`one name at a time, not also ${more}`);
    if (name === undefined) {
      await print(list());
      return 0;
    }
    const found = functions.find((f) => f.name === name.toUpperCase());
    if (!found) {
      const near = nearest(
        name,
        functions.map((f) => f.name),
      );
      throw new WrongUse(`no function ${name}${near.length > 0 ? `; nearest: ${near.join(', ')}` : '; overbench functions lists them all'}`);
    }
    await print(page(found));
    return 0;
  },
};

function list(): string {
  const parts = byFamily(functions).map(([family, found]) => {
    const rows = found.map((f) => [left(`  ${f.name}`), left(f.summary)]);
    return `${family}\n${columns(rows).join('\n')}\n`;
  });
  return parts.join('\n');
}

function page(f: FunctionRecord): string {
  const call = f.params.map((p) => (p.optional ? `[${p.name}]` : p.name) + (p.repeats ? ', …' : '')).join(', ');
  const params = columns(f.params.map((p) => [left(`  ${p.name}`), left(p.unit === '1' ? 'number' : p.unit), left(allowed(p)), left(p.meaning)]));
  const examples = f.examples.map((e) => `  =${e.formula} gives ${e.gives}`);
  const result = ['text', 'yes or no', 'any'].includes(f.returns.unit) ? f.returns.unit : f.returns.unit === '1' ? 'a plain number' : `in ${f.returns.unit}`;
  return [
    `${f.name}(${call})`,
    f.summary,
    '',
    f.use,
    `Formula: ${f.formula}`,
    ...(params.length > 0 ? ['Takes:', ...params] : []),
    `Gives: ${f.returns.quantity}, ${result}`,
    `Source: ${f.source}`,
    ...(f.caution ? [`Caution: ${f.caution}`] : []),
    'For example:',
    ...examples,
    '',
  ].join('\n');
}

function allowed(p: Param): string {
  const parts = [
    p.above !== undefined ? `above ${p.above}` : '',
    p.atLeast !== undefined ? `at least ${p.atLeast}` : '',
    p.below !== undefined ? `below ${p.below}` : '',
    p.atMost !== undefined ? `at most ${p.atMost}` : '',
    p.whole ? 'whole' : '',
    p.oneOf ? p.oneOf.join(' or ') : '',
    p.optional && p.fallback !== undefined ? `${p.fallback} if left out` : '',
  ];
  return parts.filter(Boolean).join(', ');
}
