/** Whether two pieces of plain data say the same. What is the same object is not gone into. */
export function alike(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return false;
  const keys = Object.keys(a);
  if (Array.isArray(a) !== Array.isArray(b) || keys.length !== Object.keys(b).length) return false;
  for (const key of keys) if (!Object.hasOwn(b, key) || !alike((a as Record<string, unknown>)[key], (b as Record<string, unknown>)[key])) return false;
  return true;
}
