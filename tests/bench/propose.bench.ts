import { readFileSync } from 'node:fs';
import type { Book } from '../../src/book/book.ts';
import { type PieceDone, Searcher } from '../../src/engine/propose/index.ts';

for (const slug of (process.env.SLUGS ?? 'trade-bench').split(',')) {
  const book = JSON.parse(readFileSync(`templates/${slug}.json`, 'utf8')) as Book;
  let t = performance.now();
  const searcher = Searcher.of(book, { all: true });
  if (typeof searcher === 'string') throw new Error(searcher);
  console.log(slug, 'made', performance.now() - t);
  for (let k = 0; k < 3; k++) {
    t = performance.now();
    const done: PieceDone[] = [];
    for (let i = 0; i < searcher.plan.pieces; i++) done.push(searcher.piece(i));
    const sum = (key: 'layouts' | 'built' | 'worked' | 'hold') => done.reduce((a, d) => a + d.counts[key], 0);
    console.log(performance.now() - t, sum('layouts'), sum('built'), sum('worked'), sum('hold'));
  }
}
