export function findEngines(): { readonly parallel: string; readonly python: string };
