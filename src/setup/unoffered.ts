/** What of the calculator the page's worker goes without. */
import { readFileSync } from 'node:fs';
import type { Plugin } from 'vite';
import { OFFERED } from '../engine/offered.ts';

/** What would make words of the descriptions. */
const DESCRIBING = 'buildFunctionListEntry, buildFunctionDetails, buildCustomFunctionListEntry, buildCustomFunctionDetails';
export const FAMILY = /hyperformula\/es\/interpreter\/plugin\/\w+Plugin\.mjs$/;
/** The calculator does not let these two go. */
const KEPT = new Set([...OFFERED, 'VERSION', 'OFFSET']);
/** An entry of a family's list of functions, a line of its other names, and one of its methods: the calculator's files are all laid out alike. */
const ENTRY = /^ {2}'?([A-Z][A-Z0-9._]*)'?: \{\n[\s\S]*?^ {2}\},?\n/gm;
const OTHER_NAME = /^ {2}'?([A-Z][A-Z0-9._]*)'?: '([A-Z][A-Z0-9._]*)',?\n/gm;
const METHOD = /^ {2}(\w+)\(ast, state\) \{\n[\s\S]*?^ {2}\}\n/gm;

/** A family of the calculator's functions without those that are not offered; other names of offered ones are kept with what they are names of. */
export function offeredOf(code: string): string {
  const meant = [...code.matchAll(OTHER_NAME)].filter(([, name = '']) => KEPT.has(name)).map(([, , id = '']) => id);
  const ids = new Set([...KEPT, ...meant]);
  const listed = code
    .replace(ENTRY, (entry, id: string) => (ids.has(id) ? entry : ''))
    .replace(OTHER_NAME, (line, name: string) => (KEPT.has(name) ? line : ''));
  return listed.replace(METHOD, (method, name: string) => (listed.includes(`'${name}'`) || listed.includes(`this.${name}(`) ? method : ''));
}

/** The names of functions in the one language that is used: those with a point are what others are names of; errors (`#`) and the word a sheet is called by (`NEW_SHEET_PREFIX`) are no functions. */
const LANGUAGE = /hyperformula\/es\/i18n\/languages\/enGB\.mjs$/;
const NAME = /^ {4}'?([A-Z][A-Z0-9._]*)'?: '[^']*',?\n/gm;
export const namesOf = (code: string): string => code.replace(NAME, (line, name: string) => (KEPT.has(name) || /\.|'#|_[A-Z]+_/.test(line) ? line : ''));

/** What is said of a grammar that is none: of two rules of one name alone it is asked. */
const COMPLAINTS = /chevrotain\/lib_esm\/src\/parse\/errors_public\.js$/;
const COMPLAINT = /^ {4}build(?!DuplicateRuleName|RuleNotFound)\w+Error: function \(\w*\) \{\n[\s\S]*?^ {4}\},?\n/gm;

/** The calculator as a whole, and what carries out its changes: of each, the methods that the engine asks of it (src/engine), and what these ask of each other. */
const ENGINE_ASKS = new Set(
  (
    'buildEmpty getFunctionPlugin getRegisteredFunctionNames getRegisteredLanguagesCodes registerFunctionPlugin registerLanguage unregisterFunction ' +
    'addNamedExpression addSheet batch destroy getCellDependents getCellPrecedents getCellValue isItPossibleToAddSheet removeNamedExpression ' +
    'resumeEvaluation setCellContents setSheetContent suspendEvaluation'
  ).split(' '),
);
const WHOLE = /hyperformula\/es\/(HyperFormula|CrudOperations|Operations)\.mjs$/;
const REMARK = /^ {2}\/\*\*[\s\S]*?\*\/\n/gm;
const OWN = /^ {2}(?:static )?(?:get )?(\w+)\([^\n]*\) \{\n[\s\S]*?^ {2}\}\n/gm;
const names = (code: string): string[] => [...code.matchAll(/\.(\w+)/g)].map(([, name = '']) => name);

/** The code of classes without the methods that nobody asks for. */
function askedOf(code: string, asks: Iterable<string>): string {
  const plain = code.replace(REMARK, '');
  const asked = new Set(['constructor', ...asks, ...names(plain.replace(OWN, ''))]);
  for (let before = -1; before !== asked.size; ) {
    before = asked.size;
    for (const [method, name = ''] of plain.matchAll(OWN)) if (asked.has(name)) for (const other of names(method)) asked.add(other);
  }
  return plain.replace(OWN, (method, name: string) => (asked.has(name) ? method : ''));
}

/** One of the three; `read` gives the code of a file of the calculator's. */
export function wholeOf(name: string, read: (name: string) => string): string {
  const hyper = askedOf(read('HyperFormula'), ENGINE_ASKS);
  if (name === 'HyperFormula') return hyper;
  const around = ['BuildEngineFactory', 'ClipboardOperations'].map(read).join('\n') + read('UndoRedo').replace(STEP, '');
  const crud = askedOf(read('CrudOperations'), names(hyper + around));
  return name === 'CrudOperations' ? crud : askedOf(read('Operations'), names(crud + around));
}

/** Nothing is taken back within the calculator: the book's own history does that. */
const HISTORY = /hyperformula\/es\/UndoRedo\.mjs$/;
const STEP = /^ {2}(?:undo|redo)[A-Z]\w*\(\w+\) \{\n[\s\S]*?^ {2}\}\n/gm;

/**
 * The calculator describes its functions in words that nobody here asks for, has functions that are not offered (src/engine/offered.ts), can take back, sort, cut and paste, and
 * judges at each start whether its grammar is one, as its maker has: with all that the program would be a tenth larger.
 */
export const withoutUnoffered = (): Plugin => ({
  name: 'without the calculator’s descriptions, and without functions that are not offered',
  load(id) {
    const [, category] = /hyperformula\/es\/interpreter\/functionMetadata\/categories\/([a-z-]+)\.mjs$/.exec(id) ?? [];
    if (category !== undefined) return `export const ${category.replaceAll('-', '_').toUpperCase()}_DOCS = {};`;
    if (/hyperformula\/es\/interpreter\/plugin\/3rdparty\/bessel\/bessel\.mjs$/.test(id)) return 'export let besseli, besselj, besselk, bessely;';
    if (/hyperformula\/es\/interpreter\/functionMetadata\/buildFunctionDescriptions\.mjs$/.test(id)) return `export let ${DESCRIBING};`;
    return undefined;
  },
  transform: {
    filter: { id: [FAMILY, LANGUAGE, WHOLE, HISTORY, COMPLAINTS, /chevrotain\/lib_esm\/src\/(?:scan\/lexer_public|parse\/parser\/parser)\.js$/] },
    handler: (code, id) => {
      if (FAMILY.test(id)) return offeredOf(code);
      if (LANGUAGE.test(id)) return namesOf(code);
      const [, whole] = WHOLE.exec(id) ?? [];
      if (whole !== undefined) return wholeOf(whole, (name) => readFileSync(`${id.slice(0, -`${whole}.mjs`.length)}${name}.mjs`, 'utf8'));
      if (HISTORY.test(id)) return code.replace(STEP, '');
      if (COMPLAINTS.test(id)) return code.replace(COMPLAINT, '');
      return code.replaceAll(/_this(?:\.config)?\.skipValidations === false/g, 'false');
    },
  },
});
