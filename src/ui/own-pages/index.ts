/** Pages that every book has besides its own: the hand-over sheet, what changed, the functions, the words. What draws one is fetched when it is first shown. */
export const OWN_PAGES: readonly { readonly id: string; readonly title: string; readonly load: () => Promise<unknown> }[] = [
  { id: 'hand-over', title: 'Hand-over sheet', load: () => import('./handover.ts') },
  { id: 'what-changed', title: 'What changed', load: () => import('./changes.ts') },
  { id: 'functions', title: 'The functions', load: () => import('./functions-page.ts') },
  { id: 'glossary', title: 'Words', load: () => import('./glossary.ts') },
];

/** What the margin looks for in what it says. */
export const loadWords = () => import('./glossary-words.ts');

export const loadOwnPage = (id: string): void => void OWN_PAGES.find((page) => page.id === id)?.load();
