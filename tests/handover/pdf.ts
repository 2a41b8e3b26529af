/** What a printed file holds, read from its bytes: enough of the format to count pages and to look for pictures made of dots. */
import { inflateSync } from 'node:zlib';

export interface Pdf {
  readonly pages: number;
  /** pt, as each page says it. */
  readonly sizes: readonly (readonly [number, number])[];
  /** Pictures made of dots. */
  readonly images: number;
  /** Places at which text is set. */
  readonly texts: number;
}

export function readPdf(bytes: Uint8Array): Pdf {
  const raw = Buffer.from(bytes).toString('latin1');
  // Objects may themselves be packed into streams, so those are looked through as well.
  const whole = raw + streams(raw).join('\n');
  const count = (pattern: RegExp): number => whole.match(pattern)?.length ?? 0;
  return {
    pages: count(/\/Type\s*\/Page\b(?!s)/g),
    sizes: [...whole.matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map((m) => [Number(m[1]), Number(m[2])] as const),
    images: count(/\/Subtype\s*\/Image\b/g) + count(/\bBI\s[\s\S]{0,200}?\bID\s/g),
    texts: count(/\bT[jJ]\b/g),
  };
}

function streams(raw: string): readonly string[] {
  return [...raw.matchAll(/stream\r?\n([\s\S]*?)\r?\nendstream/g)].flatMap((match) => {
    try {
      return [inflateSync(Buffer.from(match[1] ?? '', 'latin1')).toString('latin1')];
    } catch {
      // Not packed: letters as they are, and what stands in the open was read already.
      return [];
    }
  });
}
