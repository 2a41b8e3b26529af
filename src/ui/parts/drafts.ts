/**
 * What is half written: texts by book and block, and the cell that is being written in. It outlives the page that is shown, and where the
 * whole page is closed or loaded anew it is put by, to be gone on with.
 */
import type { Place } from './part.ts';

export interface Draft {
  readonly text: string;
  /** Of a text that is not in the book yet: where on its page it is to stand. */
  readonly at?: number;
  /** Of a cell. */
  readonly place?: Place;
  /** It was put by when the page closed. */
  readonly again?: boolean;
}

const KEY = 'overbench half written';

/** Each tells what is written by now; undefined while that is nothing new. */
const drafts = new Map<string, () => Draft | undefined>();

/** Takes up what was put by when the page closed, and puts by what is half written when it closes again. Once a page. */
export function beginDrafts(): void {
  for (const [key, draft] of takeStored()) drafts.set(key, () => draft);
  addEventListener('pagehide', putBy);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') putBy();
  });
}

export const draftOf = (key: string): Draft | undefined => drafts.get(key)?.();
export const noteDraft = (key: string, now: () => Draft | undefined): void => void drafts.set(key, now);
export const endDraft = (key: string): void => void drafts.delete(key);

export const cellKey = (book: string): string => `${book}/cell`;
export const AGAIN = 'You were writing this when the page closed: keep it, or leave it as it was.';

function putBy(): void {
  const written = [...drafts].flatMap(([key, now]) => {
    const draft = now();
    return draft ? [[key, draft] as const] : [];
  });
  try {
    if (written.length > 0) localStorage.setItem(KEY, JSON.stringify(written));
    else localStorage.removeItem(KEY);
  } catch {
    // A browser that keeps nothing: what is half written ends with the page, as everything does there.
  }
}

/** Taken, not only read: another tab that is opened must not go on with it too. */
function takeStored(): readonly (readonly [string, Draft])[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(KEY) ?? '[]');
    localStorage.removeItem(KEY);
    return Array.isArray(found) ? found.filter(isStored).map(([key, draft]) => [key, { ...draft, again: true }] as const) : [];
  } catch {
    return [];
  }
}

function isStored(found: unknown): found is [string, Draft] {
  if (!Array.isArray(found) || typeof found[0] !== 'string') return false;
  const draft: unknown = found[1];
  return typeof draft === 'object' && draft !== null && 'text' in draft && typeof draft.text === 'string';
}
