/**
 * Bytes to text: which encoding a file is in, told by its byte order mark, else by its zeros, else by whether it is sound UTF-8.
 * The last resort is Windows-1252, in which any bytes are some text: that it was taken is said, for it may be another.
 * Source: WHATWG Encoding Standard (byte order marks, fatal UTF-8 decoding, the table of windows-1252).
 */
export const ENCODINGS = ['utf-8', 'utf-16le', 'utf-16be', 'windows-1252'] as const;
export type Encoding = (typeof ENCODINGS)[number];

export interface FoundEncoding {
  readonly encoding: Encoding;
  /** For the person who looks at the preview: "UTF-8, as its byte order mark says". */
  readonly said: string;
}

/**
 * Judges the first bytes of a file, or all of them.
 * @param whole false where more bytes follow, so that a letter may be cut through at the end
 */
export function findEncoding(bytes: Uint8Array, whole: boolean): FoundEncoding {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return { encoding: 'utf-8', said: 'UTF-8, as its byte order mark says' };
  if (a === 0xff && b === 0xfe) return { encoding: 'utf-16le', said: 'UTF-16, as its byte order mark says' };
  if (a === 0xfe && b === 0xff) return { encoding: 'utf-16be', said: 'UTF-16 (big-endian), as its byte order mark says' };
  const zeros = zeroShares(bytes.subarray(0, 4096));
  if (zeros.odd > 0.4 && zeros.even < 0.1) return { encoding: 'utf-16le', said: 'UTF-16 without a byte order mark' };
  if (zeros.even > 0.4 && zeros.odd < 0.1) return { encoding: 'utf-16be', said: 'UTF-16 (big-endian) without a byte order mark' };
  if (isUtf8(bytes, whole)) return { encoding: 'utf-8', said: 'UTF-8' };
  return { encoding: 'windows-1252', said: 'not UTF-8, so read as Windows-1252: look whether the letters with accents and signs such as ² and µ are right' };
}

/** The text, without its byte order mark. */
export const decode = (bytes: Uint8Array, encoding: Encoding): string => new Decoder(encoding).decode(bytes);

/** Decodes a file a piece at a time. */
export class Decoder {
  private readonly inner: TextDecoder;
  private readonly windows: boolean;

  constructor(encoding: Encoding) {
    this.inner = new TextDecoder(encoding);
    this.windows = encoding === 'windows-1252';
  }

  /** @param more true where another piece follows */
  decode(bytes: Uint8Array, more = false): string {
    const text = this.inner.decode(bytes, { stream: more });
    // Node 20 reads windows-1252 as Latin 1, whose letters 80 to 9F are controls. Where it is read right, none of these is left.
    return this.windows ? text.replaceAll(/[\x80-\x9f]/gu, (letter) => WINDOWS_1252[letter.charCodeAt(0) - 0x80] ?? letter) : text;
  }
}

const WINDOWS_1252 = [...'€\x81‚ƒ„…†‡ˆ‰Š‹Œ\x8dŽ\x8f\x90‘’“”•–—˜™š›œ\x9džŸ'];

/** Latin letters in two bytes each leave every other byte zero. */
function zeroShares(bytes: Uint8Array): { readonly even: number; readonly odd: number } {
  const half = bytes.length / 2;
  let even = 0;
  let odd = 0;
  for (const [i, byte] of bytes.entries()) if (byte === 0) i % 2 === 0 ? even++ : odd++;
  return half < 1 ? { even: 0, odd: 0 } : { even: even / half, odd: odd / half };
}

function isUtf8(bytes: Uint8Array, whole: boolean): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: !whole });
    return true;
  } catch {
    return false;
  }
}
