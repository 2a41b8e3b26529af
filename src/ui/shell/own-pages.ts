/** Pages that every book has besides its own. What draws one comes when it is first shown. */
export const OWN_PAGES: readonly { readonly id: string; readonly title: string; readonly load: () => Promise<unknown> }[] = [
  { id: 'hand-over', title: 'Hand-over sheet', load: () => import('../blocks/handover.ts') },
  { id: 'what-changed', title: 'What changed', load: () => import('../blocks/changes.ts') },
  { id: 'functions', title: 'The functions', load: () => import('../margin/functions-page.ts') },
];

export const loadOwnPage = (id: string): void => void OWN_PAGES.find((page) => page.id === id)?.load();
