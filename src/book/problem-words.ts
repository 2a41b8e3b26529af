/** What is wrong with something read from outside, in a sentence that says where. */
import type * as v from 'valibot';

export function sentence(found: unknown, issue: v.BaseIssue<unknown>): string {
  const path = (issue.path ?? []).map((item) => String((item as { key?: unknown }).key));
  const where = path.length === 0 ? 'The book' : placeInWords(found, path);
  if (issue.expected === 'never') return `${where} is a field that a book does not have.`;
  if (issue.kind !== 'schema' || issue.message.startsWith('must'))
    return `${where} ${issue.message.startsWith('must') ? issue.message : `is not allowed: ${issue.message}`}.`;
  if (issue.received === 'undefined') return `${where} is missing.`;
  const wanted = (issue.expected ?? 'something else')
    .toLowerCase()
    .replaceAll('"', '')
    .replaceAll(' | ', ', ')
    .replace('object', 'a group of fields')
    .replace('array', 'a list');
  return `${where} must be ${wanted.replace('string', 'text').replace(/[()]/gu, '')}, but is ${String(issue.received)
    .slice(0, 60)
    .replace(/^"(.*)"$/u, '“$1”')}.`;
}

/** `tables.1.rows.2.label` → "Table “Scenarios”, row 3: label". */
export function placeInWords(found: unknown, path: readonly string[]): string {
  const words: string[] = [];
  let here = found;
  for (let i = 0; i < path.length - 1; i++) {
    const key = path[i] ?? '';
    const inside = part(here, key);
    const next = path[i + 1] ?? '';
    if (Array.isArray(inside) && /^\d+$/u.test(next)) {
      const item = part(inside, next);
      const name = part(item, 'name') ?? part(item, 'title');
      words.push(`${key.replace(/s$/u, '')} ${typeof name === 'string' ? `“${name.slice(0, 40)}”` : Number(next) + 1}`);
      here = item;
      i++;
    } else {
      words.push(key);
      here = inside;
    }
  }
  const last = path.at(-1) ?? '';
  const place = words.join(', ');
  const whole = /^\d+$/u.test(last) && words.length > 0 ? place : place === '' ? last : `${place}: ${last}`;
  return whole.charAt(0).toUpperCase() + whole.slice(1);
}

const part = (value: unknown, key: string): unknown =>
  typeof value === 'object' && value !== null && Object.hasOwn(value, key) ? (value as Record<string, unknown>)[key] : undefined;
