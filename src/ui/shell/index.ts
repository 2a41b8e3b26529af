/** The whole page: it opens and keeps books, knows where one is in them, hears what is wished for, and does what commands answer. */
import './app.ts';

export { restoreLight } from './light.ts';
