/** 10,000 enquiries of 600 characters, no two alike, as `overbench read --lines` reads them; and a text of a million characters. */
import { begin } from '../../src/book/begin.ts';
import type { Book } from '../../src/book/book.ts';
import { isRefused } from '../../src/book/refused.ts';
import { answers, choose, hear } from '../../src/enquiry/index.ts';
import enquiries from '../enquiry/enquiries.json' with { type: 'json' };

const templates = import.meta.glob<Book>('../../templates/*.json', { eager: true, import: 'default' });
const books = new Map<string, Book>();
for (const [path, template] of Object.entries(templates)) {
  const book = begin(template, { client: '' });
  if (!isRefused(book)) books.set(path.replace(/^.*\/|\.json$/g, ''), book);
}

const texts = enquiries.map(({ text }) => text);
const LINES = 10_000;
const LENGTH = 600;

const lines = Array.from({ length: LINES }, (_, i) => {
  let made = '';
  for (let k = i; made.length < LENGTH; k++) made += `${(texts[k % texts.length] ?? '').replace(/\d/g, (digit) => String((Number(digit) + i) % 10))} `;
  return made.slice(0, LENGTH);
});

function read(text: string): number {
  const heard = hear(text);
  const book = books.get(choose(heard).slug);
  return book ? answers(text, heard, book).findings.length : 0;
}

let found = 0;
let begun = performance.now();
for (const line of lines) found += read(line);
const spent = performance.now() - begun;
console.log(`${LINES} enquiries of ${LENGTH} characters: ${(spent / 1000).toFixed(1)} s (at most 20), ${found} findings`);

const tall = texts.join('\n').repeat(60).slice(0, 1_000_000);
for (const length of [250_000, 1_000_000]) {
  begun = performance.now();
  read(tall.slice(0, length));
  console.log(`a text of ${length} characters: ${((performance.now() - begun) / 1000).toFixed(1)} s`);
}
