/**
 * Writes a template as text, for files and the command line; the page draws the same templates. Only what the sheet and its drawings use is
 * understood (texts, numbers, templates, lists of them); all else is a mistake in a template and is thrown.
 */
import { nothing, type TemplateResult } from 'lit/html.js';
import { escaped } from '../escaped.ts';

/** An attribute without quotes of its own, whose value comes next. */
const BARE_ATTRIBUTE = /\s[\w:-]+=$/;
const BINDING = /\s[?.@][\w-]+=$/;

export function templateText({ strings, values }: TemplateResult): string {
  let text = strings[0] ?? '';
  for (const [i, value] of values.entries()) {
    if (BINDING.test(text)) throw new Error('A template of the sheet may hold plain attributes only.');
    text += BARE_ATTRIBUTE.test(text) ? `"${valueText(value)}"` : valueText(value);
    text += strings[i + 1] ?? '';
  }
  return text;
}

function valueText(value: unknown): string {
  if (value === nothing) return '';
  if (typeof value === 'string') return escaped(value);
  if (typeof value === 'number') return String(value);
  if (Array.isArray(value)) return value.map(valueText).join('');
  if (isTemplate(value)) return templateText(value);
  throw new Error(`A template of the sheet holds what can't be written: ${String(value)}`);
}

const isTemplate = (value: unknown): value is TemplateResult => typeof value === 'object' && value !== null && '_$litType$' in value;
