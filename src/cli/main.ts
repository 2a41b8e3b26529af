import { parseArgs } from 'node:util';
import { nearest } from '../../functions/nearest.ts';
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
  handover: () => import('./handover.ts'),
  batch: () => import('./batch.ts'),
  eval: () => import('./eval.ts'),
};

async function help(): Promise<string> {
  const lines = await Promise.all(Object.entries(VERBS).map(async ([name, load]) => `  overbench ${name} ${(await load()).verb.usage}`.trimEnd()));
  return `Light plans over growing benches, from the command line.\n\n${lines.join('\n')}\n`;
}

async function run(args: readonly string[]): Promise<number> {
  const [name, ...rest] = args;
  if (name === undefined) throw new WrongUse(`say what to do: overbench ${Object.keys(VERBS).join(' | ')}`);
  if (name === '--help' || name === '-h') {
    process.stdout.write(await help());
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

// A reader that has seen enough (`| head`) closes the pipe: that is no failure of ours.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(0);
  throw error;
});

try {
  process.exitCode = await run(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof WrongUse) && !(error instanceof Failure)) throw error;
  console.error(`overbench: ${error.message}`);
  process.exitCode = error instanceof WrongUse ? 2 : 1;
}
