import { parseSync } from 'vite';

/**
 * What the text of one file takes from others, whichever way it is written, types too: `import`, `import type`, `export … from`, `import()`,
 * the type `import('…')`, `require('…')`, a reference to a path, `new URL('…', import.meta.url)` and `import.meta.glob`.
 * Read with the parser that builds the page, so that what the build would follow is what is counted here. Where the name is reckoned
 * and not written, it is RECKONED. A text that can't be read throws: it could not be judged.
 */
export function importsOf(path, text) {
  const { errors, module, program } = parsed(path, text);
  if (errors.length > 0) throw new Error(`${path} can't be read: ${errors[0].message}`);
  const found = [];
  const add = (from, start) => found.push({ from, line: text.slice(0, start).split('\n').length });
  for (const { moduleRequest } of module.staticImports) add(moduleRequest.value, moduleRequest.start);
  for (const { entries } of module.staticExports) {
    // `export { a, b } from` is one import, said once with each name.
    const [from] = entries.flatMap(({ moduleRequest }) => moduleRequest ?? []);
    if (from !== undefined) add(from.value, from.start);
  }
  if (program !== undefined) walk(program(), add, addressesIn(module));
  for (const { index, 1: from } of text.matchAll(/^\/\/\/\s*<reference\s+path="([^"]+)"/gm)) add(from.startsWith('.') ? from : `./${from}`, index);
  return found;
}

/** What stands for a name that can't be seen before the program runs: no map allows it. */
export const RECKONED = '(a name that is not written out)';

/** Forms that the parser's list of a module leaves out. Its whole tree takes three times as long to get, so only where one of them may stand. */
const RARE = /\bimport\s*(?:\/[*/]|[(.])|\brequire\b|\bexport\s*(?:type\s*)?\{\s*\}/;

function parsed(path, text) {
  const result = parseSync(path, text);
  return { errors: result.errors, module: result.module, program: RARE.test(text) ? () => result.program : undefined };
}

/** Names that stand for the address of a written import, `import url from './x.ts?worker&url'`: importing them names nothing more. */
const addressesIn = (module) =>
  new Set(
    module.staticImports
      .filter(({ moduleRequest }) => /[?&]url$/.test(moduleRequest.value))
      .flatMap(({ entries }) => entries.map(({ localName }) => localName.value)),
  );

function walk(node, add, addresses) {
  if (Array.isArray(node)) {
    for (const each of node) walk(each, add, addresses);
  } else if (typeof node === 'object' && node !== null) {
    for (const { value, start } of rare(node, addresses)) add(value, start);
    for (const key in node) walk(node[key], add, addresses);
  }
}

/** Where a node of the tree is one of the rare forms: the texts that it names. */
function rare(node, addresses) {
  switch (node.type) {
    case 'ImportExpression':
      return written(node.source) ?? (addresses.has(node.source.name) ? [] : reckoned(node));
    case 'TSImportType':
      return written(node.source);
    case 'TSExternalModuleReference':
      return written(node.expression);
    case 'ExportNamedDeclaration':
      return node.source !== null && node.specifiers.length === 0 ? written(node.source) : [];
    case 'CallExpression':
      if (node.callee.name === 'require') return written(node.arguments[0]) ?? reckoned(node);
      return isMeta(node.callee.object) && node.callee.property.name === 'glob'
        ? [node.arguments[0].elements ?? node.arguments[0]].flat().flatMap(written)
        : [];
    case 'NewExpression':
      // Of a folder it is no import but a place to work in.
      return node.callee.name === 'URL' && isMeta(node.arguments[1]?.object)
        ? (written(node.arguments[0]) ?? []).filter(({ value }) => /^\..*\.\w+$/.test(value))
        : [];
    default:
      return [];
  }
}

const reckoned = ({ start }) => [{ value: RECKONED, start }];

const isMeta = (node) => node?.type === 'MetaProperty';

/** A text without anything reckoned in it; undefined otherwise. */
function written(node) {
  if (node?.type === 'Literal' && typeof node.value === 'string') return [node];
  if (node?.type === 'TemplateLiteral' && node.expressions.length === 0) return [{ value: node.quasis[0].value.cooked, start: node.start }];
  return undefined;
}
