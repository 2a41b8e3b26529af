/** Whose a line of the journal is. Its page holds a lock of the browser's as long as it lives, so that no other plays back what is still being written. */

/** This page's lines, each with what lets its lock go. */
const ours = new Map<string, () => void>();

export const isOurs = (line: string): boolean => ours.has(line);

/** Takes the line for this page; false where another page has it, and has it still after `wait` ms. In a browser without locks nobody else is asked. */
export function hold(line: string, wait: number): Promise<boolean> {
  if (ours.has(line)) return Promise.resolve(true);
  ours.set(line, () => {});
  if (typeof navigator === 'undefined' || !navigator.locks) return Promise.resolve(true);
  return new Promise((resolve) => {
    const taken = (): Promise<void> | undefined => {
      resolve(true);
      return ours.has(line) ? new Promise((end) => ours.set(line, end)) : undefined;
    };
    navigator.locks.request(`overbench line ${line}`, { signal: AbortSignal.timeout(wait) }, taken).catch(() => {
      ours.delete(line);
      resolve(false);
    });
  });
}

export function letGo(line: string): void {
  ours.get(line)?.();
  ours.delete(line);
}
