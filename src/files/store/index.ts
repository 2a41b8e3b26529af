/** The browser's store: books, the journal of what is not saved yet, and what pages that ended left in it. */
export { type Note, putBy } from './journal.ts';
export { hold, letGo } from './lines.ts';
export { type Recovered, recover } from './recover.ts';
export { type Entry, type Miss, type Opened, openStore, type Store } from './storage.ts';
