// What a first visit loads before anything can be seen (the shell), and everything there is. Fonts are counted apart: not at all.
import { readFileSync } from 'node:fs';

const html = readFileSync('dist/app/index.html', 'utf8');
const linked = [...html.matchAll(/<(?:script|link)\b[^>]*\b(?:src|href)="\.?\/?([^"]+\.(?:js|css))"/g)].map(([, path]) => `dist/app/${path}`);

export default [
  { name: 'shell', path: ['dist/app/index.html', ...linked], limit: '60 kB', gzip: true },
  { name: 'all parts', path: ['dist/app/**/*.{html,js,css}'], limit: '700 kB', gzip: true },
];
