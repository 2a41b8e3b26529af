/**
 * CRC-32 as in ISO 3309 and ITU-T V.42 (polynomial 0x04C11DB7, reflected): finds a file that was damaged or altered by accident. It is no
 * seal: whoever alters a file on purpose can write a new one.
 */
const TABLE = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k++) c = c & 1 ? (c >>> 1) ^ 0xedb88320 : c >>> 1;
  return c;
});

/** Of the UTF-8 bytes of a text, as eight hexadecimal digits. */
export function checksum(text: string): string {
  let c = 0xffffffff;
  for (const byte of new TextEncoder().encode(text)) c = (c >>> 8) ^ (TABLE[(c ^ byte) & 0xff] ?? 0);
  return ((c ^ 0xffffffff) >>> 0).toString(16).padStart(8, '0');
}
