// Runs the built program again and again in one process, which a test file keeps: what is loaded and compiled once serves all its calls.
// The parent sends arguments and input, and gets the exit status and what was printed.
import { Readable } from 'node:stream';
import { inspect } from 'node:util';

let runs = 0;

function caught(stream) {
  const pieces = [];
  const { write } = stream;
  stream.write = (piece, encoding, then) => {
    pieces.push(Buffer.from(piece, typeof encoding === 'string' ? encoding : 'utf8'));
    (typeof encoding === 'function' ? encoding : then)?.();
    return true;
  };
  return () => {
    stream.write = write;
    stream.removeAllListeners('error');
    return Buffer.concat(pieces).toString();
  };
}

async function run({ args, input }) {
  process.argv = [process.execPath, 'overbench', ...args];
  process.exitCode = undefined;
  Object.defineProperty(process, 'stdin', { configurable: true, value: Readable.from([Buffer.from(input)]) });
  const out = caught(process.stdout);
  const err = caught(process.stderr);
  try {
    // Another address each time, so that the program's first file runs anew; what it imports is loaded once.
    await import(new URL(`../../dist/cli/overbench.js?${runs++}`, import.meta.url).href);
  } catch (error) {
    // As Node itself ends where nothing catches.
    process.stderr.write(`${inspect(error)}\n`);
    process.exitCode = 1;
  }
  // Each run says anew what is done with what nobody caught.
  process.removeAllListeners('uncaughtException');
  return { status: process.exitCode ?? 0, out: out(), err: err() };
}

process.on('message', async (asked) => process.send(await run(asked)));
process.on('disconnect', () => process.exit(0));
