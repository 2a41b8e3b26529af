import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { appendFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readStrictly } from '../files/rfc4180.ts';
import { clients } from './clients.ts';
import { alone, type Desk, desk, overbench } from './run.ts';

let at: Desk;
beforeEach(() => {
  at = desk();
});
afterEach(() => at.clear());

const save = (name: string, text: string): string => {
  writeFileSync(at.path(name), text);
  return at.path(name);
};

/** Records under their headings. */
function table(text: string): Record<string, string>[] {
  const [head = [], ...records] = readStrictly(text);
  return records.map((record) => Object.fromEntries(head.map((heading, i) => [heading, record[i] ?? ''])));
}

describe('batch', () => {
  it('gives every client the very values that a book made for it alone has', async () => {
    const file = save('clients.csv', clients(12));
    const run = await overbench(['batch', 'trade-bench', file]);
    expect(run.err).toBe('');
    expect(run.status).toBe(0);
    const told = table(run.out);
    for (const row of [1, 7, 12]) {
      const [, length, width, hours, tariff] = clients(12).split('\n')[row]?.split(',') ?? [];
      const sets = [`bench_length=${length} ft`, `bench_width=${width}`, `light_hours=${hours}`, `tariff=${tariff} EUR/kWh`];
      expect((await overbench(['new', 'trade-bench', ...sets.flatMap((set) => ['--set', set]), '-o', at.path(`${row}.json`)])).status).toBe(0);
      const own = table((await overbench(['csv', at.path(`${row}.json`)])).out).filter((cell) => cell.table === 'Scenarios');
      const ours = told.filter((one) => one.client === `Client ${row}`);
      expect(ours.length).toBeGreaterThan(100);
      for (const { scenario, result, value, unit } of ours) {
        const cell = own.find((one) => one.scenario === scenario && one.row === result && ['worked', 'check'].includes(one.kind ?? ''));
        // A cell without a number has no unit here; the book's own file says the unit that it would have.
        expect([result, scenario, value, unit]).toEqual([result, scenario, cell?.value, Number.isNaN(Number(value)) ? '' : cell?.unit]);
      }
    }
  });

  it('writes one and the same file for any number of threads, in the order of the input, tidy and wide', async () => {
    const file = save('clients.csv', clients(90));
    for (const form of ['--tidy', '--wide']) {
      const outs: string[] = [];
      for (const jobs of form === '--wide' ? [1, 2, 3] : [1, 3]) {
        const out = at.path(`out-${jobs}.csv`);
        expect((await overbench(['batch', 'trade-bench', file, form, '--jobs', String(jobs), '-o', out])).status).toBe(0);
        expect(readdirSync(at.path('.')).filter((name) => /part|progress/.test(name))).toEqual([]);
        outs.push(readFileSync(out, 'utf8'));
      }
      for (const out of outs) expect(out).toBe(outs[0]);
      const names = [...new Set(table(outs[0] ?? '').map((one) => one.client))];
      expect(names).toEqual(Array.from({ length: 90 }, (_, i) => `Client ${i + 1}`));
    }
  });

  it('counts a check that fails as a result', async () => {
    const run = await overbench(['batch', 'trade-bench', '-', '--wide'], 'bench_width\n1.9 m\n');
    expect(run.status).toBe(0);
    expect(table(run.out).some((one) => one.Verdict?.startsWith('fails'))).toBe(true);
  });

  it('says a word where a row has no answer and the checks have theirs', async () => {
    const run = await overbench(['batch', 'trade-bench', '-'], 'bench_length,bench_width\n9 m,2.4 m\n');
    expect(run.status).toBe(0);
    const reach = table(run.out).filter((one) => one.result?.startsWith('Height that just reaches'));
    expect(reach.map((one) => one.value)).toEqual(['refused', 'refused', 'refused']);
  });

  it('says why a layout does not fit in the scenario that it does not fit, and the others stand', async () => {
    // Thirty lights, each longer than a tenth of a bench of 3.6 m, do not go along it.
    const rows = 'client,Scenarios.B2\nAll fit,3\nToo many in B,30\n';
    const run = await overbench(['batch', 'trade-bench', '-', '--wide'], rows);
    expect([run.status, run.err]).toEqual([0, '']);
    const verdicts = table(run.out).map((one) => [one.client, one.scenario, one.Verdict] as const);
    expect(verdicts.map(([client, scenario]) => `${client} ${scenario}`)).toEqual(
      ['All fit', 'Too many in B'].flatMap((client) => [...'ABC'].map((s) => `${client} ${s}`)),
    );
    expect(verdicts[4]?.[2]).toMatch(/^unknown: Target band, B: refused\. LAYOUT: the faces overlap.*\(from Scenarios\.B129\)$/);
    // The other scenarios are what they are for a client whose B fits.
    for (const place of [0, 2]) expect(verdicts[place + 3]?.[2]).toBe(verdicts[place]?.[2]);
    const tidy = table((await overbench(['batch', 'trade-bench', '-'], rows)).out).filter((one) => one.client === 'Too many in B' && one.scenario === 'B');
    expect(tidy.at(-1)).toMatchObject({ result: 'Verdict', value: verdicts[4]?.[2] });
    expect(tidy.find((one) => one.result === 'Maintained mean PPFD')?.value).toBe('refused');
  });

  it('puts bad rows whole into the rejected file with line and reason, and goes on', async () => {
    const rows = [
      'client,bench_length [ft],crop,note',
      'Good,12,sweet basil,first',
      'Bad unit,12 kg,,',
      'Too long,900,,',
      'No number,long,,"two\nlines"',
      'Crop,12,unicorn,',
      'Fits no fixture,3,,',
      'Too few,12',
      '"Open,12,,',
      'Good too,3.5 m,,last',
    ];
    const file = save('clients.csv', `${rows.join('\n')}\n`);
    const run = await overbench(['batch', 'trade-bench', file, '--wide', '--carry', 'note', '-o', at.path('out.csv'), '--rejected', at.path('bad.csv')]);
    expect(run.status).toBe(1);
    expect(run.err).toMatch(/^7 clients rejected: see /);
    const good = table(at.read('out.csv'));
    expect([...new Set(good.map((one) => `${one.client} ${one.note}`))]).toEqual(['Good first', 'Good too last']);
    const bad = readStrictly(at.read('bad.csv'));
    expect(bad[0]).toEqual(['client', 'bench_length [ft]', 'crop', 'note', 'rejected because']);
    expect(bad.slice(1).map((record) => record.slice(0, 4))).toEqual([
      ['Bad unit', '12 kg', '', ''],
      ['Too long', '900', '', ''],
      ['No number', 'long', '', 'two\nlines'],
      ['Crop', '12', 'unicorn', ''],
      ['Fits no fixture', '3', '', ''],
      ['Too few', '12', '', ''],
      ['"Open,12,,', '', '', ''],
    ]);
    const why = bad.slice(1).map((record) => record[4] ?? '');
    expect(why[0]).toMatch(/^line 3: bench_length: .*length/);
    expect(why[1]).toMatch(/^line 4: bench_length: .*above what is allowed/);
    expect(why[2]).toMatch(/^line 5: bench_length: /);
    expect(why[3]).toMatch(/^line 7: crop: .*not one of the choices/);
    expect(why[4]).toMatch(/^line 8: Target band, A: refused\. LAYOUT: the faces overlap.*\(from Scenarios\.A129\)$/);
    expect(why[5]).toBe('line 9: it has 2 fields, the headings are 4');
    expect(why[6]).toMatch(/^line 10: A quote opens/);

    // What came before a client leaves no trace in it.
    const unaccompanied = await overbench(['batch', 'trade-bench', '-', '--wide', '--carry', 'note'], `${rows[0]}\n${rows.at(-1)}\n`);
    expect(table(unaccompanied.out)).toEqual(good.filter((one) => one.client === 'Good too'));

    // Mended, the rejected file goes in as it is.
    const mended = save('mended.csv', at.read('bad.csv').split('\r\n').slice(0, 2).join('\r\n').replace('12 kg', '12'));
    const again = await overbench(['batch', 'trade-bench', mended, '--carry', 'note']);
    expect([again.status, again.err]).toEqual([0, '']);
  });

  it('tells rejected rows on standard error where no file is asked for them', async () => {
    const run = await overbench(['batch', 'trade-bench', '-'], 'bench_length\n900\n3.6\n');
    expect([run.status, run.err.split('\n')[1]]).toEqual([1, '1 client rejected']);
    expect(run.err).toMatch(/^line 2: bench_length: 900 m is above what is allowed/);
  });

  it('reads standard input and writes standard output, so that a file can be split, and joined without its headings', async () => {
    const all = clients(30);
    const whole = alone(['batch', 'trade-bench', '-', '-o', '-'], all);
    const [head = '', ...rows] = all.trimEnd().split('\n');
    const parts: string[] = [];
    for (const part of [rows.slice(0, 11), rows.slice(11)])
      parts.push((await overbench(['batch', 'trade-bench', '-', '--no-head'], `${[head, ...part].join('\n')}\n`)).out);
    const [, results] = /^client,.*?\r\n([\s\S]*)$/.exec(whole.out) ?? [];
    expect(parts.join('')).toBe(results);
  });

  it('numbers the clients of a file that does not name them', async () => {
    const run = await overbench(['batch', 'trade-bench', '-', '--wide', '--carry', 'note'], 'note,bench_length\nleft,3.6\nbad,900\nright,3.7\n');
    const told = table(run.out);
    expect(Object.keys(told[0] ?? {}).slice(0, 3)).toEqual(['row', 'note', 'scenario']);
    expect([...new Set(told.map((one) => `${one.row} ${one.note}`))]).toEqual(['1 left', '3 right']);
  });

  it('reads a file with semicolons, decimal commas and Windows-1252 letters', async () => {
    const file = at.path('fenêtre.csv');
    writeFileSync(file, Buffer.from('client;bench_length\r\nBjörn;3,6\r\n', 'latin1'));
    const run = await overbench(['batch', 'trade-bench', file, '--wide']);
    expect(table(run.out)[0]).toMatchObject({ client: 'Björn', Layout: expect.stringContaining('over 3.6×1.5 m') });
  });

  it('makes a book for each client, which holds what the client gave', async () => {
    const file = save('clients.csv', clients(3));
    expect((await overbench(['batch', 'trade-bench', file, '-o', at.path('out.csv'), '--books', at.path('books')])).status).toBe(0);
    expect(readdirSync(at.path('books'))).toEqual(['000001-client-1.json', '000002-client-2.json', '000003-client-3.json']);
    const cells = table((await overbench(['csv', at.path('books/000002-client-2.json')])).out);
    expect(cells.find((cell) => cell.name === 'bench_width')).toMatchObject({ value: '1.73', unit: 'm' });
    expect(JSON.parse(at.read('books/000002-client-2.json')).client).toBe('Client 2');
  });

  it('sets a scenario’s own given by its address', async () => {
    const run = await overbench(['batch', 'trade-bench', '-', '--wide'], 'Scenarios.B7 [cm]\n55\n\n30\n');
    expect(run.status).toBe(0);
    const b = table(run.out).filter((one) => one.scenario === 'B');
    const mean = (i: number): number => Number(b[i]?.['Full mean PPFD (µmol/m²/s)']);
    expect(b.length).toBe(2);
    expect(mean(1)).toBeGreaterThan(mean(0));
  });

  it('is called wrongly where a heading is unknown, of another kind, worked out or there twice; and nothing is begun', async () => {
    const file = save('clients.csv', 'client\nA\n');
    const wrong = async (head: string): Promise<string> => {
      const run = await overbench(['batch', 'trade-bench', '-'], `${head}\n1\n`);
      expect([run.status, run.out]).toEqual([2, '']);
      return run.err;
    };
    expect(await wrong('bench_lenght')).toMatch(/no given has this name; nearest: bench_length/);
    expect(await wrong('bench_length [kg]')).toMatch(/bench_length takes m or the like/);
    expect(await wrong('bench_length [furlong]')).toMatch(/furlong is no unit/);
    expect(await wrong('area')).toMatch(/area is worked out, not given/);
    expect(await wrong('bench_length,Brief.A1')).toMatch(/two columns are for the same thing/);
    for (const args of [['--resume'], ['--jobs', '0'], ['--tidy', '--wide'], ['-o', at.path('x'), '--rejected', at.path('x')]])
      expect((await overbench(['batch', 'trade-bench', file, ...args])).status).toBe(2);
    expect(await overbench(['batch', 'trade-bench', at.path('none.csv')])).toMatchObject({ status: 1, err: expect.stringMatching(/can't read/) });
    expect(await overbench(['batch', 'trade-bench', '-'], '')).toMatchObject({ status: 1, err: expect.stringMatching(/is empty/) });
  });
});

/** Runs until the journal has a further line about clients, and kills it there. False where it came to its end before. */
async function killed(args: readonly string[], journal: string): Promise<boolean> {
  const before = existsSync(journal) ? readFileSync(journal, 'utf8').split('\n').length : 2;
  const child: ChildProcess = spawn(process.execPath, ['dist/cli/overbench.js', ...args], { stdio: 'ignore' });
  const ended = once(child, 'exit');
  while (child.exitCode === null && !(existsSync(journal) && readFileSync(journal, 'utf8').split('\n').length > before))
    await new Promise((go) => setTimeout(go, 5));
  const running = child.exitCode === null;
  child.kill('SIGKILL');
  await ended;
  return running;
}

describe('batch that meets trouble', () => {
  it('ends with one line and status 1 where it can not write, and where the input is no file of records', async () => {
    const file = save('clients.csv', clients(2));
    save('books', 'a file where a folder should be');
    for (const args of [
      ['--books', at.path('books/of/clients')],
      ['-o', at.path('no/such/folder.csv')],
    ]) {
      const run = await overbench(['batch', 'trade-bench', file, ...args]);
      expect([run.status, run.err.trimEnd().split('\n').length]).toEqual([1, 1]);
    }
    const endless = save('endless.csv', `bench_length\n${'x'.repeat(5_000_000)}`);
    expect(await overbench(['batch', 'trade-bench', endless])).toMatchObject({ status: 1, err: expect.stringMatching(/^overbench: Line 2 does not end/) });
  });
});

describe('batch that was killed', () => {
  it('goes on with --resume, with another number of threads too, and loses and doubles nothing', async () => {
    const file = save('clients.csv', clients(700).replaceAll(/^(Client \d*5),/gmu, '$1,9'));
    const args = ['batch', 'trade-bench', file, '--wide'];
    await overbench([...args, '-o', at.path('whole.csv'), '--rejected', at.path('whole-bad.csv')]);
    const out = at.path('out.csv');
    const rejected = ['--rejected', at.path('bad.csv')];
    expect(await killed([...args, '-o', out, '--jobs', '1', ...rejected], `${out}.progress`)).toBe(true);
    expect(existsSync(out)).toBe(false);
    const done = readFileSync(`${out}.part`, 'utf8').split('\r\n').length;
    expect(done).toBeGreaterThan(3);

    // What a cut in the middle of a write leaves behind.
    appendFileSync(`${out}.part`, '99999,Client x,A,half a li');
    appendFileSync(`${out}.progress`, '{"clients":6');
    expect(await killed([...args, '-o', out, '--jobs', '2', '--resume', ...rejected], `${out}.progress`)).toBe(true);

    const last = await overbench([...args, '-o', out, '--jobs', '2', '--resume', ...rejected]);
    expect(last.status).toBe(1);
    expect(readFileSync(out, 'utf8')).toBe(at.read('whole.csv'));
    expect(at.read('bad.csv')).toBe(at.read('whole-bad.csv'));
    expect(readdirSync(at.path('.')).filter((name) => /part|progress/.test(name))).toEqual([]);

    const more = await overbench([...args, '-o', out, '--resume', ...rejected]);
    expect([more.status, more.err]).toEqual([0, expect.stringMatching(/is finished: nothing is left to do/)]);
  });

  it('does not go on with another file or other options', async () => {
    const file = save('clients.csv', clients(500));
    const args = ['batch', 'trade-bench', file, '-o', at.path('out.csv')];
    expect(await killed([...args, '--wide', '--jobs', '1'], `${at.path('out.csv')}.progress`)).toBe(true);
    expect(await overbench([...args, '--tidy', '--resume'])).toMatchObject({ status: 1, err: expect.stringMatching(/begun with another template/) });
    save('clients.csv', clients(500).replace('Client 3,', 'Client 4,'));
    expect(await overbench([...args, '--wide', '--resume'])).toMatchObject({ status: 1, err: expect.stringMatching(/is not the file/) });
  });
});
