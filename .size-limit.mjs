// What a first visit loads before anything can be seen (the shell), and everything there is. Fonts are counted apart: not at all.
import { readFileSync } from 'node:fs';

const html = readFileSync('dist/app/index.html', 'utf8');
const linked = [...html.matchAll(/<(?:script|link)\b[^>]*\b(?:src|href)="\.?\/?([^"]+\.(?:js|css))"/g)].map(([, path]) => `dist/app/${path}`);

/** The greater parts of what a visit fetches until the demo is worked out, with the editor that is fetched when the page is idle; smaller ones come to 19 kB more. Aimed at in all: 480 kB. */
const DEMO = ['index', 'book', 'book-parts', 'keeping', 'table', 'lit', 'opening', 'rename', 'worker', 'editor', 'markdown'];

export default [
  { name: 'shell', path: ['dist/app/index.html', ...linked], limit: '60 kB', gzip: true },
  { name: 'the demo', path: ['dist/app/index.html', ...DEMO.map((name) => `dist/app/assets/${name}-????????.{js,css}`)], limit: '475 kB', gzip: true },
  { name: 'all parts', path: ['dist/app/**/*.{html,js,css}'], limit: '700 kB', gzip: true },
];
