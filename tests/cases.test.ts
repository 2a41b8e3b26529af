import { expect, test } from 'vitest';
import config from '../vite.config.ts';

test.each(['long', 'test'])('every project runs in the mode that is asked for: %s', (mode) => {
  const { projects = [] } = config({ mode, command: 'serve' }).test ?? {};
  expect(projects.length).toBeGreaterThan(2);
  for (const project of projects) expect(project).toMatchObject({ mode });
});
