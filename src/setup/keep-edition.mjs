/**
 * Keeps the present edition of a template, before it is changed and gets the next number: node src/setup/keep-edition.mjs SLUG…
 * Without a slug: of every template. What is kept tells later what a book has of its own: formulas, allowed ranges, and what rows of lists are called.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';

const templates = new URL('../../templates/', import.meta.url);

function kept({ id, name, form, columns, rows, cells }) {
  const first = columns[0]?.id;
  const lines = rows.map((row) => {
    const line = Object.entries(cells[row.id] ?? {}).flatMap(([column, { content, range }]) => {
      const said = content.startsWith('=') || (form === 'list' && (row.head || column === first)) ? content : '';
      return said === '' && range === undefined ? [] : [[column, { content: said, ...(range && { range }) }]];
    });
    return [row.id, Object.fromEntries(line)];
  });
  return {
    id,
    name,
    form,
    columns: columns.map((column) => ({ id: column.id, ...(column.range && { range: column.range }) })),
    rows: rows.map((row) => ({ id: row.id, ...(row.head && { head: true }), ...(row.range && { range: row.range }) })),
    cells: Object.fromEntries(lines.filter(([, line]) => Object.keys(line).length > 0)),
  };
}

const all = readdirSync(templates).flatMap((file) => (file.endsWith('.json') ? file.slice(0, -5) : []));
for (const slug of process.argv.length > 2 ? process.argv.slice(2) : all) {
  const { template, names, tables } = JSON.parse(readFileSync(new URL(`${slug}.json`, templates), 'utf8'));
  const edition = template?.edition ?? 1;
  const file = new URL(`editions/${slug}.${edition}.json`, templates);
  writeFileSync(file, `${JSON.stringify({ slug, edition, names, tables: tables.map(kept) })}\n`);
  console.log(`templates/editions/${slug}.${edition}.json`);
}
