/** The pieces of README.md that other programs run, as they stand there. */
import { readFileSync } from 'node:fs';

const readme = readFileSync('README.md', 'utf8');

/** The one block in this language that holds these words. */
export function block(language: string, words: string): string {
  const found = [...readme.matchAll(new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\``, 'gm'))]
    .map(([, text = '']) => text)
    .filter((text) => text.includes(words));
  if (found.length !== 1) throw new Error(`README.md has ${found.length} blocks of ${language} with “${words}”, not one`);
  return found[0] ?? '';
}
