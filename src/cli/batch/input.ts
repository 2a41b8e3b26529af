/** The clients file as records, read as it comes: a file of any length in little memory. */
import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { type CsvRecord, Decoder, findDelimiter, findEncoding, RecordReader, RecordSplitter } from '../../files/csv/index.ts';
import { Failure } from '../wrong-use.ts';

export interface Input {
  readonly records: AsyncGenerator<CsvRecord>;
  readonly decimalMark: '.' | ',';
  /** Bytes read so far, and in all where that is known. */
  readonly read: { bytes: number; readonly of: number | undefined };
}

/** By so much of the file its encoding and delimiter are told. */
const BEGINNING = 1 << 16;

/** @param file a path, or `-` for standard input */
export async function openInput(file: string): Promise<Input> {
  const read = { bytes: 0, of: file === '-' ? undefined : await sizeOf(file) };
  const pieces = bytesOf(file, read);
  const beginning: Uint8Array[] = [];
  let length = 0;
  let ended = false;
  while (length < BEGINNING && !ended) {
    const next = await pieces.next();
    if (next.done) ended = true;
    else {
      beginning.push(next.value);
      length += next.value.length;
    }
  }
  const first = Buffer.concat(beginning);
  const decoder = new Decoder(findEncoding(first, ended).encoding);
  const text = decoder.decode(first, true);
  const delimiter = findDelimiter(text);
  return { records: recordsOf(text, pieces, decoder, delimiter), decimalMark: delimiter === ';' ? ',' : '.', read };
}

async function sizeOf(file: string): Promise<number> {
  try {
    return (await stat(file)).size;
  } catch (error) {
    throw unreadable(file, error);
  }
}

const unreadable = (file: string, error: unknown): Failure => new Failure(`can't read ${file}: ${(error as Error).message}`);

async function* bytesOf(file: string, read: { bytes: number }): AsyncGenerator<Uint8Array> {
  try {
    for await (const piece of file === '-' ? process.stdin : createReadStream(file)) {
      read.bytes += (piece as Buffer).length;
      yield piece as Buffer;
    }
  } catch (error) {
    throw unreadable(file, error);
  }
}

async function* recordsOf(beginning: string, rest: AsyncGenerator<Uint8Array>, decoder: Decoder, delimiter: string): AsyncGenerator<CsvRecord> {
  const splitter = new RecordSplitter(delimiter);
  const reader = new RecordReader(delimiter);
  try {
    yield* reader.read(splitter.push(beginning));
    for await (const piece of rest) yield* reader.read(splitter.push(decoder.decode(piece, true)));
    yield* reader.read([...splitter.push(decoder.decode(new Uint8Array())), ...splitter.end()]);
  } catch (error) {
    throw error instanceof RangeError ? new Failure(error.message) : error;
  }
}
