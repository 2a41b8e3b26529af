import type { Page } from 'playwright-core';

/** Keeps the store of books busy, so that no save gets through: one transaction that asks again and again. Resolves, once it has begun, with what ends it. */
export async function holdStore(page: Page): Promise<() => Promise<void>> {
  await page.evaluate(
    () =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('overbench');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const store = opening.result.transaction(['entries', 'books'], 'readwrite').objectStore('entries');
          const hold = (): void => {
            resolve();
            if (document.body.dataset.held !== 'no longer') store.get('nothing').onsuccess = hold;
            else opening.result.close();
          };
          store.get('nothing').onsuccess = hold;
        };
      }),
  );
  return () =>
    page.evaluate(() => {
      document.body.dataset.held = 'no longer';
    });
}
