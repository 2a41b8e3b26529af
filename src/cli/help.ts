import { columns, left } from './columns.ts';
import type { Verb } from './verb.ts';

/** How one verb is called, what it is for, and what each of its options does. */
export function helpOn(name: string, { usage, about, options }: Verb): string {
  const rows = Object.entries(options).map(([option, { type, short, about: meaning }]) => {
    const written = `${short === undefined ? '' : `-${short}, `}--${option}${type === 'string' ? ' …' : ''}`;
    return [left(`  ${written}`), left(meaning)];
  });
  return `${[`overbench ${name} ${usage}`.trimEnd(), '', about, ...(rows.length > 0 ? ['', ...columns(rows)] : [])].join('\n')}\n`;
}
