/// <reference types="vite/client" />
/** The sheet as one file of its own: styles and letters are in it, and nothing is fetched from anywhere. */
import { escaped } from '../escaped.ts';
import sheetStyle from '../ui/styles/handover.css?inline';
import pictures from '../ui/styles/pictures.css?inline';
import tokens from '../ui/styles/tokens.css?inline';
import { type Paper, pageStyle } from './page-style.ts';
import { type Sheet, sheet } from './sheet.ts';
import { templateText } from './text.ts';

/** The two families of letters as addresses that hold their own data: `data:font/woff2;base64,…`. */
export interface Letters {
  readonly literata: string;
  readonly recursive: string;
}

const face = (family: string, source: string, weight: string): string =>
  `@font-face{font-family:"${family}";src:url(${source}) format("woff2");font-weight:${weight}}`;

export function sheetFile(made: Sheet, size: Paper, letters: Letters): string {
  const { book } = made.reader;
  const styles = [
    face('Literata', letters.literata, '400 700'),
    face('Recursive', letters.recursive, '300 700'),
    tokens,
    pictures,
    sheetStyle,
    pageStyle(made, size),
  ];
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Light plan: ${escaped([book.title, book.client].filter(Boolean).join(', '))}</title>
<style>
${styles.join('\n')}
</style>
</head>
<body class="handed-over">
<main>
${templateText(sheet(made))}
</main>
</body>
</html>
`;
}
