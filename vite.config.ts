import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';

const here = fileURLToPath(new URL('.', import.meta.url));

const UNOFFERED =
  'Complex|RadixConversion|BitwiseLogicOperations|BitShift|Address|Sequence|Sort|Unique|CountUnique|FormulaText|Hyperlink|Delta|Random|Array|Matrix';
const FAMILY = new RegExp(`hyperformula/es/interpreter/plugin/((?:${UNOFFERED})Plugin)\\.mjs$`);

/**
 * The calculator describes its functions in words that nobody here asks for, and has families of which no function is offered
 * (src/engine/allowed.ts): with them the program would be 30 kB larger.
 */
const withoutUnoffered = (): Plugin => ({
  name: 'without the calculator’s descriptions, and without functions that are not offered',
  load(id) {
    const [, category] = /hyperformula\/es\/interpreter\/functionMetadata\/categories\/([a-z-]+)\.mjs$/.exec(id) ?? [];
    if (category !== undefined) return `export const ${category.replaceAll('-', '_').toUpperCase()}_DOCS = {};`;
    if (/hyperformula\/es\/interpreter\/plugin\/3rdparty\/bessel\/bessel\.mjs$/.test(id)) return 'export let besseli, besselj, besselk, bessely;';
    const [, family] = FAMILY.exec(id) ?? [];
    if (family === undefined) return undefined;
    return `import { FunctionPlugin } from './FunctionPlugin.mjs'; export class ${family} extends FunctionPlugin {} ${family}.implementedFunctions = {};`;
  },
});

/** What a record says of its function for whoever reads about it. */
const SAID: ReadonlySet<string> = new Set(['summary', 'use', 'formula', 'source', 'unchecked', 'examples', 'family']);

interface Node {
  readonly type: string;
  readonly start: number;
  readonly end: number;
  readonly [field: string]: unknown;
}

const isNode = (found: unknown): found is Node => typeof found === 'object' && found !== null && typeof (found as Node).type === 'string';

/**
 * The worker runs the functions; what is said of them (what they are for, where they come from, examples) is read on the page alone, which has the records
 * whole. Without it the worker is a tenth smaller.
 */
const withoutWords = (): Plugin => ({
  name: 'functions without what is said of them',
  enforce: 'post',
  transform(code, id) {
    if (!/\/functions\/[a-z/-]+\.ts$/.test(id) || !code.includes('define(')) return undefined;
    const cuts: Node[] = [];
    const look = (found: unknown): void => {
      if (Array.isArray(found)) for (const each of found) look(each);
      if (!isNode(found)) return;
      const record = found.type === 'CallExpression' && (found.callee as { name?: string }).name === 'define' ? (found.arguments as Node[])[0] : undefined;
      for (const property of (record?.properties as Node[] | undefined) ?? []) {
        if (property.type === 'Property' && SAID.has((property.key as { name?: string }).name ?? '')) cuts.push(property);
      }
      for (const value of Object.values(found)) look(value);
    };
    look(this.parse(code));
    let left = code;
    for (const { start, end } of cuts.toSorted((a, b) => b.start - a.start)) left = left.slice(0, start) + left.slice(end).replace(/^\s*,/, '');
    return { code: left, map: null };
  },
});

// The page: src/ui is what the browser sees. Only the shell (lit and the page's own elements) loads first; the rest comes when it is needed.
export default defineConfig({
  root: `${here}src/ui`,
  base: './',
  build: {
    outDir: `${here}dist/app`,
    emptyOutDir: true,
    target: 'es2022',
    // What the page is dressed with must reach the browser as written: light-dark() and nesting are known wherever ES2022 modules with import maps are.
    cssTarget: 'chrome123',
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    rolldownOptions: {
      // The editor's undo comes from a package that can do more, and of what that reads nothing is left but this: syntax trees, which no formula here uses.
      treeshake: { moduleSideEffects: [{ test: /node_modules[\\/]@lezer[\\/]/, sideEffects: false }] },
      output: {
        codeSplitting: {
          groups: [
            { name: 'lit', test: /node_modules[\\/](?:lit|@lit)/ },
            // All of these come with the shell: in one piece they are smaller than each by itself.
            { name: 'book', test: /src[\\/]book[\\/](?:address|allowed|apply|bounds|content|label|lines|look-up|references|refused|shift)\.ts$/ },
            { name: 'engine', test: /node_modules[\\/](?:hyperformula|chevrotain)/ },
          ],
        },
      },
    },
  },
  worker: { format: 'es', plugins: () => [withoutUnoffered(), withoutWords()] },
  test: {
    root: here,
    testTimeout: 30_000,
    // The hand-over file carries its styles in it; without this the runner would leave them out.
    css: true,
    projects: [
      { extends: true, test: { name: 'parts', include: ['tests/**/*.test.ts'], exclude: ['tests/cli/**', 'tests/app/**'] } },
      // These drive what `npm run build` makes: it is built once, before the first of them.
      { extends: true, test: { name: 'command line', include: ['tests/cli/**/*.test.ts'], globalSetup: 'tests/cli/setup.ts' } },
      { extends: true, test: { name: 'app', include: ['tests/app/**/*.test.ts'], globalSetup: 'tests/app/setup.ts', fileParallelism: false } },
    ],
  },
});
