/** Reads as much of a broken book file as there is, and completes it to something that can be looked at. */

type Stored = Record<string, unknown>;

/** `cut`: the text ends before the book does, and is sound up to there. */
export function rescue(text: string): { readonly found: Stored | undefined; readonly cut: boolean } {
  const { json, cut } = closed(text.replace(/^\uFEFF/u, ''));
  if (json === undefined) return { found: undefined, cut };
  try {
    return { found: completed(JSON.parse(json) as Stored), cut };
  } catch {
    return { found: undefined, cut: false };
  }
}

const TOKEN = /\s*(?:([{}[\]:,])|("(?:[^"\\\p{Cc}]|\\.)*")|(-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?|true|false|null))/uy;

/** The text up to its last whole value, with the brackets that are open there closed. */
function closed(text: string): { readonly json: string | undefined; readonly cut: boolean } {
  const open: string[] = [];
  let end = 0;
  let ends = '';
  let previous = '';
  let at = 0;
  for (;;) {
    TOKEN.lastIndex = at;
    const match = TOKEN.exec(text);
    if (!match) break;
    const [whole, mark, string] = match;
    at += whole.length;
    if (mark === '{' || mark === '[') open.push(mark === '{' ? '}' : ']');
    else if (mark === '}' || mark === ']') {
      if (open.pop() !== mark) break;
    }
    // A text before a colon is a key, no value yet; a number at the very end may have lost digits.
    const isKey = string !== undefined && open.at(-1) === '}' && previous !== ':';
    const isValue = mark === undefined ? !isKey && (string !== undefined || at < text.length) : mark !== ':' && mark !== ',';
    if (isValue) {
      end = at;
      ends = [...open].reverse().join('');
    }
    previous = mark ?? '';
    if (open.length === 0) break;
  }
  const rest = text.slice(at).trim();
  // What is left over is the beginning of one token where the text was cut, and something else where it was spoilt.
  const cut = open.length > 0 && (rest === '' || PART_OF_TOKEN.test(rest));
  return { json: end === 0 ? undefined : text.slice(0, end) + ends, cut };
}

const PART_OF_TOKEN = /^(?:"(?:[^"\\\p{Cc}]|\\.)*\\?|-|[-\d.eE+]+|t(?:ru?)?|f(?:a(?:ls?)?)?|n(?:ul?)?)$/u;

/** Puts empty lists where the rest of the book is missing, and leaves out what was cut through. */
function completed(stored: Stored): Stored {
  const tables = list(stored.tables)
    .filter((t) => Array.isArray(t.columns) && Array.isArray(t.rows))
    .map(completedTable);
  const ids = new Set(tables.map((table) => table.id));
  const pages = list(stored.pages)
    .filter((page) => typeof page.title === 'string')
    .map((page) => ({ ...page, blocks: list(page.blocks).filter((block) => whole(block) && (block.kind !== 'table' || ids.has(block.table))) }));
  const names = Object.entries((stored.names ?? {}) as Stored).filter(([, target]) =>
    tables.some((table) => typeof target === 'string' && startsInTable(target, String(table.name))),
  );
  return { client: '', currency: 'EUR', measures: 'metric', ...stored, pages, tables, names: Object.fromEntries(names) };
}

const startsInTable = (target: string, name: string): boolean => target.startsWith(`${name}!`) || target.startsWith(`'${name.replaceAll("'", "''")}'!`);

function completedTable(table: Stored): Stored {
  const columns = list(table.columns).filter((column) => typeof column.id === 'string');
  const rows = list(table.rows).filter((row) => typeof row.id === 'string');
  const cells = Object.entries((table.cells ?? {}) as Record<string, Record<string, Stored>>).map(([row, line]) => [
    row,
    Object.fromEntries(Object.entries(line).filter(([, cell]) => typeof cell.content === 'string')),
  ]);
  return { ...table, columns, rows, cells: Object.fromEntries(cells) };
}

function whole(block: Stored): boolean {
  if (block.kind === 'prose') return typeof block.text === 'string';
  if (block.kind === 'table') return typeof block.table === 'string';
  return block.kind === 'picture' && typeof block.picture === 'string' && typeof block.caption === 'string' && typeof block.reads === 'object';
}

const list = (value: unknown): Stored[] => (Array.isArray(value) ? value.filter((item) => typeof item === 'object' && item !== null) : []);
