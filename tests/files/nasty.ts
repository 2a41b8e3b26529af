/** Text that makes trouble in files of fields: guards, quotes, marks, line ends, spaces of other kinds. */
import fc from 'fast-check';

export const nastyText = (maxLength: number): fc.Arbitrary<string> =>
  fc.string({
    unit: fc.oneof(
      fc.constantFrom(
        '=',
        '+',
        '-',
        '@',
        "'",
        '"',
        '""',
        ',',
        ';',
        '\t',
        '|',
        '\r',
        '\n',
        '\r\n',
        '\0',
        '1',
        '2,5',
        ' m',
        'TRUE',
        '＝',
        ' ',
        '\u00a0',
        '\uFEFF',
        'µ',
        '²',
        '😀',
      ),
      fc.string({ unit: 'grapheme', minLength: 1, maxLength: 2 }),
    ),
    maxLength,
  });
