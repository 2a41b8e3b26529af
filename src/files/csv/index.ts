/** Comma-separated text: what goes out side by side or a cell a line, and how a table of another program comes in. */
export { type CsvValue, formatCsv, formatVerbatim, unguard } from './csv.ts';
export { Draft } from './draft.ts';
export { readHeading } from './heading.ts';
export { formatNotPlaced, holdsNotPlaced, keepAside, type NotPlaced, reason } from './kept.ts';
export { rowLines, rowsSaid } from './list-text.ts';
export type { Mapping } from './mapped.ts';
export { type CsvRecord, DELIMITERS, type Delimiter, findDelimiter, RecordReader } from './records.ts';
export { type Role, roleOf, unitOfColumn, withRole, withUnit } from './roles.ts';
export { RecordSplitter } from './split.ts';
export { type Plan, planCsv, type Staged, type StageOptions, stageCsv, type Watch } from './staged.ts';
export { suggestMapping } from './suggest.ts';
export { Decoder, ENCODINGS, type Encoding, findEncoding } from './text.ts';
export { formatTidy } from './tidy.ts';
export { fieldOf } from './values.ts';
export { formatWide } from './wide.ts';
