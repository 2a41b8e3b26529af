import { parseArgs } from 'node:util';
import { nearest } from '../../functions/nearest.ts';
import { helpOn } from './help.ts';
import { print } from './output.ts';
import type { Verb } from './verb.ts';
import { Failure, WrongUse } from './wrong-use.ts';

/** Loaded when asked for: what lists templates need not wait for the engine. */
const VERBS: Readonly<Record<string, () => Promise<{ verb: Verb }>>> = {
  templates: () => import('./templates.ts'),
  functions: () => import('./functions.ts'),
  new: () => import('./new.ts'),
  show: () => import('./show.ts'),
  csv: () => import('./csv.ts'),
  bring: () => import('./bring.ts'),
  'take-in': () => import('./take-in.ts'),
  working: () => import('./working.ts'),
  back: () => import('./back.ts'),
  handover: () => import('./handover.ts'),
  batch: () => import('./batch.ts'),
  propose: () => import('./propose.ts'),
  eval: () => import('./eval.ts'),
  read: () => import('./read.ts'),
};

async function help(): Promise<string> {
  const lines = await Promise.all(Object.entries(VERBS).map(async ([name, load]) => `  overbench ${name} ${(await load()).verb.usage}`.trimEnd()));
  return `Light plans over growing benches, from the command line.\n\n${lines.join('\n')}\n`;
}

async function run(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined) throw new WrongUse(`say what to do: overbench ${Object.keys(VERBS).join(' | ')}`);
  if (name === '--help' || name === '-h') {
    await print(await help());
    return 0;
  }
  const load = Object.hasOwn(VERBS, name) ? VERBS[name] : undefined;
  if (!load) {
    const near = nearest(name, Object.keys(VERBS));
    throw new WrongUse(
      `no such verb: ${name}.${near.length > 0 ? ` Did you mean ${near.join(' or ')}?` : ''} Usage: overbench ${Object.keys(VERBS).join(' | ')}`,
    );
  }
  const { verb } = await load();
  const end = rest.indexOf('--');
  if (rest.slice(0, end < 0 ? rest.length : end).some((word) => word === '--help' || word === '-h')) {
    await print(helpOn(name, verb));
    return 0;
  }
  try {
    const { values, positionals } = parseArgs({ args: rest, options: verb.options, allowPositionals: true, strict: true });
    return await verb.run(positionals, values);
  } catch (error) {
    const wrong = error instanceof WrongUse || (error as NodeJS.ErrnoException).code?.startsWith('ERR_PARSE_ARGS');
    if (!wrong) throw error;
    // Some of these messages go on with advice on a second line or sentence that does not fit here.
    const said = (error as Error).message.split('\n')[0]?.replace(/\.? To specify a positional.*$/, '') ?? '';
    throw new WrongUse(`${said}${/[.?!]$/.test(said) ? '' : '.'} Usage: overbench ${name} ${verb.usage}`);
  }
}

/** One line on standard error, and the exit status. What nobody foresaw is said too, without the insides of the program. */
function say(error: unknown): 1 | 2 {
  const { message, syscall } = (error instanceof Error ? error : new Error(String(error))) as NodeJS.ErrnoException;
  const known = error instanceof WrongUse || error instanceof Failure;
  console.error(`overbench: ${known ? message : `${syscall === undefined ? 'the program has a fault' : 'the system refused'}: ${message.split('\n')[0]}`}`);
  return error instanceof WrongUse ? 2 : 1;
}

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // A reader that has seen enough (`| head`) closes the pipe: that is no failure of ours.
  if (error.code === 'EPIPE') process.exit(0);
  process.exit(say(new Failure(`can't write to standard output: ${error.message}`)));
});
// Where nobody can be told anything, the exit status still says it.
process.stderr.on('error', () => {});
process.on('uncaughtException', (error) => process.exit(say(error)));

try {
  process.exitCode = await run(process.argv.slice(2));
} catch (error) {
  process.exitCode = say(error);
}
