/**
 * A strict reader written from the grammar of RFC 4180, section 2 (Shafranovich, 2005), which shares nothing with what is tested:
 *   file = record *(CRLF record) [CRLF]; field = escaped / non-escaped;
 *   escaped = DQUOTE *(TEXTDATA / COMMA / CR / LF / 2DQUOTE) DQUOTE; every record has as many fields as the first.
 * TEXTDATA is taken to be any character but quote, comma, CR and LF, since the files are UTF-8.
 */
export function readStrictly(text: string): string[][] {
  const records: string[][] = [];
  let at = 0;
  do {
    const record: string[] = [];
    for (;;) {
      record.push(readField());
      if (text[at] !== ',') break;
      at++;
    }
    records.push(record);
    if (at < text.length) {
      if (text.slice(at, at + 2) !== '\r\n') throw new Error(`a record ends with something else than CRLF at ${at}`);
      at += 2;
    }
  } while (at < text.length);
  for (const record of records) if (record.length !== records[0]?.length) throw new Error('the records differ in width');
  return records;

  function readField(): string {
    let field = '';
    if (text[at] !== '"') {
      while (at < text.length && !'",\r\n'.includes(text[at] ?? '')) field += text[at++];
      return field;
    }
    for (at++; ; at++) {
      if (at >= text.length) throw new Error('a quoted field does not end');
      if (text[at] === '"') {
        if (text[at + 1] !== '"') break;
        at++;
      }
      field += text[at];
    }
    at++;
    return field;
  }
}
