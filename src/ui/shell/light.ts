/** The look by day or by night: what the reader's system asks for, until the switch says otherwise. */
const KEY = 'overbench light';

export function restoreLight(): void {
  const kept = read();
  if (kept) document.documentElement.dataset.light = kept;
}

export function switchLight(): 'day' | 'night' {
  const dark = document.documentElement.dataset.light ?? (matchMedia('(prefers-color-scheme: dark)').matches ? 'night' : 'day');
  const next = dark === 'night' ? 'day' : 'night';
  document.documentElement.dataset.light = next;
  try {
    localStorage.setItem(KEY, next);
  } catch {
    // A browser that keeps nothing still switches for this visit.
  }
  return next;
}

function read(): 'day' | 'night' | undefined {
  try {
    const kept = localStorage.getItem(KEY);
    return kept === 'day' || kept === 'night' ? kept : undefined;
  } catch {
    return undefined;
  }
}
