// What a first visit loads before anything can be seen (the shell), and everything there is. Fonts are counted apart: not at all.
import { readFileSync } from 'node:fs';

const html = readFileSync('dist/app/index.html', 'utf8');
const linked = [...html.matchAll(/<(?:script|link)\b[^>]*\b(?:src|href)="\.?\/?([^"]+\.(?:js|css))"/g)].map(([, path]) => `dist/app/${path}`);

/** The greater parts of what a visit fetches until the demo is worked out, with the editor and the reader of Markdown, which come after it can be edited; smaller ones are 25 kB more. */
const DEMO = ['index', 'book', 'book-parts', 'keeping', 'reading', 'table', 'lit', 'opening', 'rename', 'worker', 'editor', 'markdown'];

export default [
  { name: 'shell', path: ['dist/app/index.html', ...linked], limit: '60 kB', gzip: true },
  { name: 'the demo', path: ['dist/app/index.html', ...DEMO.map((name) => `dist/app/assets/${name}-????????.{js,css}`)], limit: '480 kB', gzip: true },
  { name: 'all parts', path: ['dist/app/**/*.{html,js,css}'], limit: '700 kB', gzip: true },
];
