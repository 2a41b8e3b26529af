/** Small things that are no loss: a browser that keeps nothing goes on without them. */
export const keep = {
  read(key: string): string | null {
    try {
      return localStorage.getItem(key);
    } catch {
      return null;
    }
  },
  write(key: string, value: string): void {
    try {
      localStorage.setItem(key, value);
    } catch {
      // Full, or not allowed: the next visit begins without it.
    }
  },
  drop(key: string): void {
    try {
      localStorage.removeItem(key);
    } catch {
      // What can't be reached can't be read again either.
    }
  },
};

/** Where the groups of rows that stand open in a book are kept. */
export const openGroupsKey = (id: string): string => `overbench open rows ${id}`;
