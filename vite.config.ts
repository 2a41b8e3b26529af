import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { notices } from './src/setup/notices.ts';

const here = fileURLToPath(new URL('.', import.meta.url));

const UNOFFERED =
  'Complex|RadixConversion|BitwiseLogicOperations|BitShift|Address|Sequence|Sort|Unique|CountUnique|FormulaText|Hyperlink|Delta|Random|Array|Matrix';
/** What would make words of the descriptions. */
const DESCRIBING = 'buildFunctionListEntry, buildFunctionDetails, buildCustomFunctionListEntry, buildCustomFunctionDetails';
const FAMILY = new RegExp(`hyperformula/es/interpreter/plugin/((?:${UNOFFERED})Plugin)\\.mjs$`);

/**
 * The calculator describes its functions in words that nobody here asks for, and has families of which no function is offered
 * (src/engine/offered.ts): with them the program would be 30 kB larger.
 */
const withoutUnoffered = (): Plugin => ({
  name: 'without the calculator’s descriptions, and without functions that are not offered',
  load(id) {
    const [, category] = /hyperformula\/es\/interpreter\/functionMetadata\/categories\/([a-z-]+)\.mjs$/.exec(id) ?? [];
    if (category !== undefined) return `export const ${category.replaceAll('-', '_').toUpperCase()}_DOCS = {};`;
    if (/hyperformula\/es\/interpreter\/plugin\/3rdparty\/bessel\/bessel\.mjs$/.test(id)) return 'export let besseli, besselj, besselk, bessely;';
    if (/hyperformula\/es\/interpreter\/functionMetadata\/buildFunctionDescriptions\.mjs$/.test(id)) return `export let ${DESCRIBING};`;
    const [, family] = FAMILY.exec(id) ?? [];
    if (family === undefined) return undefined;
    return `import { FunctionPlugin } from './FunctionPlugin.mjs'; export class ${family} extends FunctionPlugin {} ${family}.implementedFunctions = {};`;
  },
  // The calculator's grammar is the same at each start: whether it is one at all, its maker has judged.
  transform: {
    filter: { id: /chevrotain\/lib_esm\/src\/(?:scan\/lexer_public|parse\/parser\/parser)\.js$/ },
    handler: (code) => code.replaceAll(/_this(?:\.config)?\.skipValidations === false/g, 'false'),
  },
});

const PATIENT = { testTimeout: 240_000, hookTimeout: 240_000 };
/** What the README says of other programs, run with those programs: `npm run test:engines` alone, since they are installed for it. One after the other: each takes both processors. */
const ELSEWHERE = [
  {
    extends: true as const,
    test: { name: 'elsewhere', include: ['tests/elsewhere/**/*.test.ts'], globalSetup: 'tests/elsewhere/setup.ts', fileParallelism: false, ...PATIENT },
  },
];
const SHELL =
  /[\\/]src[\\/]book[\\/](?:address|area|bounds|content|customs|free-title|label|lines|locked|look-up|plan-version|references|refused|rewrite-book|said-by|shift)\.ts$/;
const READING =
  /[\\/](?:functions[\\/](?:units|number-text|quantity-text|feet-text|wire-gauge|nearest)|src[\\/](?:shown|book[\\/](?:allowed|apply|goes-with|names|wires)))\.ts$/;
const KEEPING =
  /[\\/](?:node_modules[\\/](?:idb|valibot)[\\/].*|src[\\/]book[\\/](?:canonical|check|history|invert|migrate|migrate-places|schema)\.ts|src[\\/]files[\\/](?:book|store)[\\/].*)$/;

/** The page and its worker are built apart, and have one list of notices. */
const { watch, write } = notices('LICENSE.txt');

// The page: src/ui is what the browser sees. Only the shell (lit and the page's own elements) loads first; the rest comes when it is needed.
export default defineConfig(({ mode }) => ({
  root: `${here}src/ui`,
  base: './',
  plugins: [watch(), write()],
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
      // A door of src/files that is entered for one thing brings no other along.
      treeshake: {
        moduleSideEffects: [
          { test: /node_modules[\\/]@lezer[\\/]/, sideEffects: false },
          { test: /[\\/]src[\\/](?:files[\\/]\w+|ui[\\/](?:cells|parts))[\\/]index\.ts$/, sideEffects: false },
        ],
      },
      output: {
        codeSplitting: {
          groups: [
            { name: 'lit', test: /node_modules[\\/](?:lit|@lit)/ },
            { name: 'engine', test: /node_modules[\\/](?:hyperformula|chevrotain)/ },
            // What is always fetched together is packed together, and takes the less room: what the shell reads of books, what reads and writes quantities, and what keeps books.
            { name: 'book', test: SHELL },
            { name: 'reading', test: READING },
            { name: 'keeping', test: KEEPING },
          ],
        },
      },
    },
  },
  worker: { format: 'es', plugins: () => [withoutUnoffered(), watch()] },
  test: {
    root: here,
    testTimeout: 30_000,
    // The hand-over file carries its styles in it; without this the runner would leave them out.
    css: true,
    // A project of its own has a mode of its own, and tests ask for it: `npm run test:long` would run what `npm test` does.
    projects:
      mode === 'engines'
        ? ELSEWHERE
        : [
            // The runner by itself would leave one processor idle. How long a test may be is for what never comes: a busy machine is slow, not wrong.
            {
              extends: true,
              mode,
              test: {
                name: 'parts',
                include: ['tests/**/*.test.ts'],
                exclude: ['tests/cli/**', 'tests/app/**', 'tests/elsewhere/**'],
                maxWorkers: '100%',
                isolate: false,
                ...PATIENT,
              },
            },
            // These drive what `npm run build` makes: it is built once, before the first of them.
            {
              extends: true,
              mode,
              test: { name: 'command line', include: ['tests/cli/**/*.test.ts'], globalSetup: 'tests/cli/setup.ts', maxWorkers: '100%', ...PATIENT },
            },
            // The pages of these share one browser, which wants what processors there are for itself: they come after the others.
            {
              extends: true,
              mode,
              test: {
                name: 'app',
                include: ['tests/app/**/*.test.ts'],
                globalSetup: 'tests/app/setup.ts',
                sequence: { groupOrder: 1 },
                isolate: false,
                expect: { poll: { timeout: 30_000 } },
                maxWorkers: '100%',
                ...PATIENT,
              },
            },
          ],
  },
}));
