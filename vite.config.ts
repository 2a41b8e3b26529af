import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { notices } from './src/setup/notices.ts';
import { withoutUnoffered } from './src/setup/unoffered.ts';

const here = fileURLToPath(new URL('.', import.meta.url));

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
