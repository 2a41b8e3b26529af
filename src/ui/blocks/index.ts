/** A page and its pieces, one below another: texts, pictures, tables, and the menus of what can be done with them. */
export { menu } from './menu.ts';
export type { ObPage, PageCommand } from './page-view.ts';

import './page-view.ts';
