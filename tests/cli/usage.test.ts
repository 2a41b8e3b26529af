import { afterAll, expect, test } from 'vitest';
import { alone, desk, overbench } from './run.ts';

const files = desk();
afterAll(() => files.clear());

const NEW = ['new', 'trade-bench', '-o', files.path('book.json')];

test.each([
  ['nothing at all', [], /say what to do: .*new.*eval/],
  ['an unknown verb', ['csvs'], /no such verb: csvs\. Did you mean csv\?/],
  ['an unknown option', ['show', '--all', 'x.json'], /--all.*Usage: overbench show BOOK \[TABLE\]/],
  ['a value that an option lacks', ['new', 'trade-bench', '-o'], /Usage: overbench new TEMPLATE/],
  ['an unknown template', ['new', 'trade-bunch'], /no template trade-bunch; nearest: trade-bench/],
  ['an unknown name', [...NEW, '--set', 'bench_lenght=3 m'], /no given is named bench_lenght; nearest: bench_length/],
  ['a name that is worked out', [...NEW, '--set', 'area=3 m²'], /area is worked out, not given/],
  ['a setting without a value', [...NEW, '--set', 'bench_length'], /bench_length is not NAME=VALUE/],
  ['a unit of another quantity', [...NEW, '--set', 'bench_length=12 W'], /takes a length in m; 12 W is a power/],
  // 2 mm² lies between 1.5 and 2.5: a thinner wire may be meant, never a thicker one.
  ['a size between two', [...NEW, '--set', 'wire_area=2 mm²'], /is not one of the choices: .*Did you mean 1\.5 mm²\?/],
  ['text for a number', [...NEW, '--set', 'bench_length=long'], /Bench length takes a number, .*0\.2 .*50 m; “long” is none/],
  ['a number out of its range', [...NEW, '--set', 'bench_length=900 m'], /Bench length.* 0\.2 .*50 m/],
  ['a choice that there is not', [...NEW, '--set', 'neighbours=3'], /choices: 0, 1, 2/],
  ['no formula', ['eval'], /a formula is missing/],
  ['two formulas', ['eval', '=1', '=2'], /one formula, in quotes, not also =2/],
  ['a formula beside --lines', ['eval', '--lines', '=1'], /the formulas come from standard input/],
  ['no book', ['csv'], /a book is missing\. Usage: overbench csv BOOK/],
  ['two kinds of CSV', ['csv', 'x.json', '--tidy', '--wide'], /tidy or wide, not both/],
  ['an unknown function', ['functions', 'LAYUOT'], /no function LAYUOT; nearest: LAYOUT/],
] as const)('%s is answered with one line that says what is wrong and how to call it, and exit status 2', async (_, args, message) => {
  const { status, out, err } = await overbench(args);
  expect(err).toMatch(message);
  expect(err.trimEnd().split('\n')).toHaveLength(1);
  expect(err).toMatch(/^overbench: .*overbench/s);
  expect(out).toBe('');
  expect(status).toBe(2);
});

test.each([
  ['a value', ['eval', '=1+1'], '', 0],
  ['what comes on standard input', ['eval', '--lines'], '=1+1\n=DLI(200,16)\n', 0],
  ['what can not be done', ['show', files.path('none.json')], '', 1],
  ['a wrong call', ['csvs'], '', 2],
] as const)('in a process of its own, %s is answered as in one that goes on: the tests use the latter', async (_, args, input, status) => {
  const own = alone(args, input);
  expect(own.status).toBe(status);
  expect(own.out + own.err).not.toBe('');
  expect(await overbench(args, input)).toEqual(own);
});

test('a book that is not there, or a folder that is not, is said in one line, and the exit status is 1', async () => {
  expect(await overbench(['show', files.path('none.json')])).toMatchObject({ status: 1, err: `overbench: there is no file ${files.path('none.json')}\n` });
  const ran = await overbench(['new', 'trade-bench', '-o', files.path('none/book.json')]);
  expect(ran.status).toBe(1);
  expect(ran.err).toMatch(/^overbench: can't write .*none.book\.json: .*\n$/);
});

test('a formula whose answer a given may not have is said in one line, and the exit status is 1', async () => {
  const ran = await overbench([...NEW, '--set', 'bench_length==70 m']);
  expect(ran.err).toMatch(/^overbench: --set bench_length==70 m: Bench length.*: 70 m is above what is allowed, from 0\.2 .*to 50 m\.\n$/);
  expect(ran).toMatchObject({ status: 1, out: '' });
});

test('--help lists every call', async () => {
  const { status, out } = await overbench(['--help']);
  expect(status).toBe(0);
  for (const call of [
    'templates',
    'functions [NAME]',
    'new TEMPLATE [--client NAME] [--title TITLE] [--set NAME=VALUE]… [-o BOOK]',
    'show BOOK [TABLE]',
    'csv BOOK',
    'take-in BOOK [-o BOOK]',
    'working BOOK Table.C12',
    'back BOOK CELL=VALUE --by GIVEN [--by GIVEN]… [--from LOW] [--to HIGH]',
    'eval FORMULA [--json]',
    'read FILE [--template TEMPLATE] [--json] [--book BOOK]',
  ])
    expect(out).toContain(`overbench ${call}`);
});

test('templates and functions are listed, and a function has its page', async () => {
  expect((await overbench(['templates'])).out, 'the one for most clients first').toMatch(/^trade-bench {2,}Trade bench {2,}\S/);
  const list = (await overbench(['functions'])).out;
  for (const name of ['DLI', 'LAYOUT', 'BENCH.MEAN', 'MOUNT.HEIGHT', 'CABLE.DROP'])
    expect(list).toMatch(new RegExp(`^ {2}${name.replace('.', '\\.')} +\\S`, 'm'));
  const page = (await overbench(['functions', 'bench.mean'])).out;
  for (const word of ['BENCH.MEAN(', 'Takes:', 'µmol/m²/s', 'Source: ', 'For example:']) expect(page).toContain(word);
});
