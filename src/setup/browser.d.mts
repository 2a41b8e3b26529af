export function findBrowser(): string | undefined;
export const BROWSER_FLAGS: readonly string[];
export const VISIT_FLAGS: readonly string[];
