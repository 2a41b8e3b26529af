/** Every cell of every template says the same in the browser, over its worker, as from the engine in Node, which the command line runs. */
import { expect, it } from 'vitest';
import { begin } from '../../src/book/begin.ts';
import { isRefused } from '../../src/book/refused.ts';
import { createEngine } from '../../src/engine/engine.ts';
import { parseCsv } from '../../src/files/csv/csv.ts';
import { formatTidy } from '../../src/files/csv/tidy.ts';
import { openSession } from '../../src/session.ts';
import { slugs, templateBook } from '../templates/open-template.ts';
import { settled, textOf, useBrowser } from './browser.ts';

const browser = useBrowser();

/** As the page says it of its own. */
const TODAY = new Date().toLocaleDateString('sv-SE');

/** Value and unit by address. */
function said(tidy: string): ReadonlyMap<string, readonly [string, string]> {
  const [head = [], ...records] = parseCsv(tidy).records;
  const [address, value, unit] = ['address', 'value', 'unit'].map((name) => head.indexOf(name)) as [number, number, number];
  return new Map(records.map((record) => [record[address] ?? '', [record[value] ?? '', record[unit] ?? ''] as const]));
}

/** Two builds of one arithmetic may differ in the last digit of a power or an exponential. */
const close = (a: string, b: string): boolean => a === b || Math.abs(Number(a) - Number(b)) <= 1e-12 * Math.abs(Number(b));

it.each(slugs)('%s', async (slug) => {
  const template = begin(templateBook(slug), { client: 'The night school', date: TODAY, habits: { breakers: [10, 13, 16, 20, 25, 32, 40] } });
  if (isRefused(template)) throw new Error(template.message);
  const session = openSession(template, createEngine());
  await session.settled();
  const here = said(formatTidy(session.book, session.values));
  session.close();
  const page = await browser.visit();
  await page.getByRole('button', { name: new RegExp(`^${templateBook(slug).title}`) }).click();
  await page.getByLabel('Client').fill('The night school');
  await page.getByRole('button', { name: 'Begin', exact: true }).click();
  await page.getByRole('heading', { level: 2 }).first().waitFor();
  await page.getByText(/^saved \d\d:\d\d$/).waitFor();
  await settled(page);
  expect(await page.locator('main .trouble').allTextContents(), 'nothing was given up').toEqual([]);
  await page.getByText('Send out', { exact: true }).click();
  const [download] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: /every cell as CSV/ }).click()]);
  const there = said(await textOf(download));
  expect([...there.keys()]).toEqual([...here.keys()]);
  const differ = [...here].filter(([address, [value, unit]]) => {
    const [otherValue = '', otherUnit = ''] = there.get(address) ?? [];
    return unit !== otherUnit || !close(otherValue, value);
  });
  expect(differ.map(([address, value]) => [address, value, there.get(address)])).toEqual([]);
  expect(here.size).toBeGreaterThan(100);
});
