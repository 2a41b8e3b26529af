export function findBrowser(): string | undefined;
export const BROWSER_FLAGS: readonly string[];
