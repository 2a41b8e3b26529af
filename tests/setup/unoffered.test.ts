/** The page's calculator lacks what is not offered, and nothing that is. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { OFFERED } from '../../src/engine/offered.ts';
import { FAMILY, namesOf, offeredOf, wholeOf } from '../../src/setup/unoffered.ts';

const folder = new URL('interpreter/plugin/', import.meta.resolve('hyperformula').replace(/[^/]*$/, ''));
const read = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const families = readdirSync(fileURLToPath(folder)).filter((name) => FAMILY.test(`hyperformula/es/interpreter/plugin/${name}`));

/** Entries of the lists of functions, each with the methods that it names. */
const entries = (code: string): [id: string, methods: string[]][] =>
  code
    .split(/^(?= {2}'?[A-Z][A-Z0-9._]*'?: \{$)/mu)
    .slice(1)
    .map((text) => [
      /[A-Z][A-Z0-9._]*/u.exec(text)?.[0] ?? '',
      [...(text.split(/^\};/mu)[0]?.matchAll(/ethod: '(\w+)'/gu) ?? [])].map(([, name = '']) => name),
    ]);

/** Other names, each with what it is one of. */
const otherNames = (code: string): [name: string, id: string][] =>
  [...code.matchAll(/^ {2}'?([A-Z][A-Z0-9._]*)'?: '([A-Z][A-Z0-9._]*)'/gmu)].map(([, name = '', id = '']) => [name, id]);

describe('the calculator of the page', () => {
  const left = families.map((name) => ({ name, was: read(name), is: offeredOf(read(name)) }));
  const ids = new Set(left.flatMap(({ is }) => entries(is).map(([id]) => id)));
  const others = new Map(left.flatMap(({ is }) => otherNames(is)));

  it('has every function that is offered, and what each runs', () => {
    const standard = left.flatMap(({ was }) => [...entries(was), ...otherNames(was)].map(([name]) => name)).filter((name) => OFFERED.has(name));
    expect(standard.length).toBeGreaterThan(150);
    expect(standard.filter((name) => !ids.has(others.get(name) ?? name))).toEqual([]);
    for (const { name, is } of left) {
      const lacking = entries(is).flatMap(([id, methods]) =>
        methods.filter((method) => !new RegExp(`^ {2}${method}\\(`, 'mu').test(is)).map((method) => `${name}: ${id} runs ${method}`),
      );
      expect(lacking).toEqual([]);
      const called = [...is.matchAll(/this\.(\w+)\(ast, state\)/gu)].map(([, method = '']) => method);
      expect(called.filter((method) => !new RegExp(`^ {2}${method}\\(`, 'mu').test(is))).toEqual([]);
    }
  });

  it('has a name for each, for every error, and for what else is no function', () => {
    const language = readFileSync(new URL('../../i18n/languages/enGB.mjs', folder), 'utf8');
    const names = namesOf(language);
    const had = (id: string): boolean => new RegExp(`^ {4}'?${id.replaceAll('.', '\\.')}'?: `, 'mu').test(language);
    const has = (id: string): boolean => new RegExp(`^ {4}'?${id.replaceAll('.', '\\.')}'?: `, 'mu').test(names);
    expect([...ids, ...others.keys()].filter((id) => had(id) && !has(id))).toEqual([]);
    const elsewhere = (code: string): string => code.replace(/functions: \{[^}]*\}/u, '');
    expect(elsewhere(language)).toMatch(/NEW_SHEET_PREFIX: '[\s\S]*'#[A-Z]|'#[A-Z][\s\S]*NEW_SHEET_PREFIX: '/u);
    expect(elsewhere(names)).toBe(elsewhere(language));
    expect(names.length).toBeLessThan(0.7 * language.length);
  });

  it('has no other', () => {
    const meant = new Set(others.values());
    expect([...ids].filter((id) => !OFFERED.has(id) && !meant.has(id)).sort()).toEqual(['VERSION']);
    const [was, is] = [left.reduce((sum, each) => sum + each.was.length, 0), left.reduce((sum, each) => sum + each.is.length, 0)];
    expect(is).toBeLessThan(0.7 * was);
  });

  it('has what the engine asks of it as a whole, what that asks of the changes, and little else', () => {
    const file = (name: string): string => readFileSync(new URL(`../../${name}.mjs`, folder), 'utf8');
    const [hyper, crud, changes] = ['HyperFormula', 'CrudOperations', 'Operations'].map((name) => wholeOf(name, file));
    const called = (code: string, before: RegExp): string[] => [...new Set([...code.matchAll(before)].map(([, name = '']) => name))];
    const lacking = (is: string, name: 'HyperFormula' | 'CrudOperations' | 'Operations', asked: readonly string[]): string[] => {
      const has = (code: string, method: string): boolean => new RegExp(`^ {2}(?:static |get )*${method}\\(`, 'mu').test(code);
      return asked.filter((method) => has(file(name), method) && !has(is, method));
    };
    const engine = readdirSync(fileURLToPath(new URL('../../src/engine', import.meta.url)), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => readFileSync(new URL(`../../src/engine/${name}`, import.meta.url), 'utf8'))
      .join('\n');
    const inside = readdirSync(fileURLToPath(new URL('../../', folder)), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.mjs') && name !== 'HyperFormula.mjs')
      .map((name) => readFileSync(new URL(`../../${name}`, folder), 'utf8'))
      .join('\n')
      .replace(/\/\*[\s\S]*?\*\/|\/\/.*/gu, '');
    const asked = called(`${engine}${inside}`, /(?:\bhf|HyperFormula)\.(\w+)/gu);
    expect(asked.length).toBeGreaterThan(15);
    expect(lacking(hyper ?? '', 'HyperFormula', [...asked, ...called(hyper ?? '', /(?:this|HyperFormula)\.(\w+)/gu)])).toEqual([]);
    expect(lacking(crud ?? '', 'CrudOperations', called(`${hyper}${crud}`, /(?:_crudOperations|this)\.(\w+)\(/gu))).toEqual([]);
    expect(lacking(changes ?? '', 'Operations', called(`${crud}${changes}`, /(?:operations|this)\.(\w+)\(/gu))).toEqual([]);
    expect(hyper?.length).toBeLessThan(0.1 * file('HyperFormula').length);
  });
});
