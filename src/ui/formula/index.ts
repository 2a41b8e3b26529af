/** Formulas: the editor in which they are written, what it offers and says, and cells picked for them. The editor is fetched apart from the page. */
export type { FormulaEditor } from './editor.ts';
export type { Found, Home, Lies } from './home.ts';
export const fetchEditor = () => import('./editor.ts');
