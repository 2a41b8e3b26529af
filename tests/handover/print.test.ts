/** The sheet as Chromium prints it, for each template and both papers. */
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import { begin } from '../../src/book/begin.ts';
import { setCell } from '../../src/book/commands/set-cell.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { isRefused } from '../../src/book/refused.ts';
import { findBrowser, VISIT_FLAGS } from '../../src/setup/browser.mjs';
import { slugs, templateBook } from '../templates/open-template.ts';
import { fill } from '../templates/rows.ts';
import { type Made, make, makeFrom, marked, section, textOf } from './made.ts';
import { readPdf } from './pdf.ts';

let browser: Browser;
let page: Page;

beforeAll(async () => {
  const executablePath = findBrowser();
  if (!executablePath) throw new Error('There is no browser: run node src/setup/browser.mjs first.');
  browser = await chromium.launch({ executablePath, args: [...VISIT_FLAGS] });
  page = await browser.newPage();
});
afterAll(async () => {
  for (const making of templates.values()) (await making).session.close();
  await browser.close();
});

const templates = new Map<string, Promise<Made>>();

/** The sheet of a template as it stands, made once for all papers. */
function sheetOf(slug: string): Promise<Made> {
  const making = templates.get(slug) ?? make(templateBook(slug));
  templates.set(slug, making);
  return making;
}

/** mm; the margins are those of the page style. */
const PAPER = {
  A4: { width: 210, height: 297, points: [595, 842] },
  letter: { width: 215.9, height: 279.4, points: [612, 792] },
} as const;
const MARGINS = { sides: 30, ends: 28 };
const PX = 96 / 25.4;

interface Measured {
  /** Texts that stand over one another. */
  readonly overlaps: readonly string[];
  /** Texts that reach beyond the paper's own edge of content. */
  readonly outside: readonly string[];
  /** Blocks that can't be parted and are higher than a page. */
  readonly tall: readonly string[];
  /** Drawings that are not as large as their scale says. */
  readonly shrunk: readonly string[];
  readonly texts: number;
  /** The foot of the verdict and of the client's page, mm from the head of the first page. */
  readonly verdictEnds: number;
  readonly clientEnds: number;
}

/** Measures the sheet in print, as wide as the content of its paper. */
async function measure(made: Made, paper: keyof typeof PAPER): Promise<Measured> {
  const { width, height } = PAPER[paper];
  await page.setViewportSize({ width: Math.round((width - MARGINS.sides) * PX), height: 1000 });
  await page.emulateMedia({ media: 'print' });
  await page.setContent(made.file(paper));
  await page.evaluate(() => document.fonts.ready);
  return page.evaluate(
    ({ most, px }) => {
      const sheet = document.querySelector('.handover');
      if (!sheet) throw new Error('There is no sheet.');
      const frame = sheet.getBoundingClientRect();
      const boxes: { text: string; box: DOMRect; home: Element }[] = [];
      const walker = document.createTreeWalker(sheet, NodeFilter.SHOW_TEXT);
      while (walker.nextNode()) {
        const node = walker.currentNode;
        const text = node.textContent?.trim() ?? '';
        if (text === '' || !node.parentElement) continue;
        // The browser measures letters within a drawing rightly by their element only.
        const drawn = node.parentElement.closest('text');
        if (drawn) {
          if (!boxes.some(({ home }) => home === drawn)) boxes.push({ text: drawn.textContent?.trim() ?? '', box: drawn.getBoundingClientRect(), home: drawn });
          continue;
        }
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const box of range.getClientRects()) if (box.width > 0) boxes.push({ text, box, home: node.parentElement });
      }
      const said = ({ text, box }: { text: string; box: DOMRect }): string => `${text.slice(0, 40)} at ${Math.round(box.left)}, ${Math.round(box.top)}`;
      const overlaps: string[] = [];
      boxes.sort((a, b) => a.box.top - b.box.top);
      for (const [i, a] of boxes.entries()) {
        for (const b of boxes.slice(i + 1)) {
          if (b.box.top >= a.box.bottom) break;
          const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
          const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
          // The heading of a table that goes on in the next column is told twice, at one place.
          if (a.home === b.home && a.box.left === b.box.left && a.box.top === b.box.top) continue;
          // Boxes of lines are higher than their letters, so neighbours touch by a little.
          if (across > 1 && down > 0.45 * Math.min(a.box.height, b.box.height)) overlaps.push(`${said(a)} and ${said(b)}`);
        }
      }
      const inPicture = (home: Element): boolean => home.closest('svg') !== null;
      return {
        overlaps,
        outside: boxes
          .filter(({ box, home }) => box.left < frame.left - (inPicture(home) ? 8 : 1) || box.right > frame.right + (inPicture(home) ? 8 : 1))
          .map(said),
        tall: [...sheet.querySelectorAll('*')]
          .filter((one) => getComputedStyle(one).breakInside === 'avoid' && one.getBoundingClientRect().height > most)
          .map((one) => `${one.tagName} ${one.className}`),
        shrunk: [...sheet.querySelectorAll<SVGSVGElement>('.drawing')]
          .filter((one) => Math.abs(one.getBoundingClientRect().width - Number.parseFloat(one.getAttribute('width') ?? '0') * px) > 0.6)
          .map((one) => one.getAttribute('aria-label') ?? ''),
        texts: boxes.length,
        clientEnds: (document.querySelector('.client')?.getBoundingClientRect().height ?? Number.POSITIVE_INFINITY) / px,
        verdictEnds: ((sheet.querySelector('.verdict')?.getBoundingClientRect().bottom ?? Number.POSITIVE_INFINITY) - frame.top) / px,
      };
    },
    { most: (height - MARGINS.ends) * PX, px: PX },
  );
}

describe.each(slugs)('the sheet of the template %s, printed', (slug) => {
  it.each(['A4', 'letter'] as const)('on %s has nothing cut off, nothing over another, and is drawn in lines and letters', async (paper) => {
    const made = await sheetOf(slug);
    const measured = await measure(made, paper);
    expect(measured.texts).toBeGreaterThan(300);
    expect(measured.overlaps).toEqual([]);
    expect(measured.outside).toEqual([]);
    expect(measured.tall).toEqual([]);
    expect(measured.shrunk).toEqual([]);
    expect(measured.clientEnds).toBeLessThan(PAPER[paper].height - MARGINS.ends);
    const pdf = readPdf(await page.pdf({ preferCSSPageSize: true }));
    expect(pdf.images).toBe(0);
    expect(pdf.texts).toBeGreaterThan(300);
    expect(pdf.pages).toBeGreaterThanOrEqual(3);
    // Letter is 6 % shorter between its margins than A4: what is eleven full pages there is twelve here.
    expect(pdf.pages).toBeLessThanOrEqual(paper === 'A4' ? 11 : 12);
    const [width, height] = PAPER[paper].points;
    for (const [w, h] of pdf.sizes) expect([Math.round(w), Math.round(h)]).toEqual([width, height]);
  });
});

it('says on the first page, which is the client’s alone, what fails, in every scenario of every template', async () => {
  for (const slug of slugs) {
    const first = await sheetOf(slug);
    for (const letter of first.sheet.reader.letters) {
      const made = await makeFrom(first.session, letter);
      const { verdictEnds, clientEnds, overlaps, outside, shrunk } = await measure(made, 'letter');
      expect(verdictEnds, `${slug} ${letter}`).toBeLessThan(110);
      expect(clientEnds, `${slug} ${letter}`).toBeLessThan(PAPER.letter.height - MARGINS.ends);
      expect([...overlaps, ...outside, ...shrunk], `${slug} ${letter}`).toEqual([]);
    }
  }
});

it('gives the client exactly one page, in US measures, with nothing answered and much that fails too', async () => {
  const begun = begin(templateBook('replace-old-lamps'), { client: 'The night school of the two old harbours', date: '2027-01-08' });
  if (isRefused(begun)) throw new Error(begun.message);
  const us = setMeasures(begun, { measures: 'US customary' });
  if (isRefused(us)) throw new Error(us.message);
  const made = await make(apply(begun, us));
  await fill(
    made.session,
    ['height', '6 in'],
    ['hours', '22 h/d'],
    ['evenness_asked', '0.95'],
    ['ambient', '60 °C'],
    ['hang_rating', '5 N'],
    ['drop_limit', '0.1 %'],
  );
  const one = await makeFrom(made.session, 'A');
  for (const paper of ['letter', 'A4'] as const) {
    const { clientEnds } = await measure(one, paper);
    expect(clientEnds, paper).toBeLessThan(PAPER[paper].height - MARGINS.ends);
    const pages = async (hidden: string): Promise<number> => {
      await page.setContent(one.file(paper).replace('</style>', `${hidden}</style>`));
      return readPdf(await page.pdf({ preferCSSPageSize: true })).pages;
    };
    expect(await pages('.handover > :not(.client) { display: none }'), paper).toBe(1);
    expect(await pages(''), `${paper}: the installer’s begin on a page of their own`).toBe(1 + (await pages('.handover > .client { display: none }')));
  }
  expect(textOf(section(one.body, 'verdict')).match(/fails/g)?.length).toBeGreaterThan(5);
  made.session.close();
});

it('can be read on a narrow screen: no figure of plan and map is tiny, and what a part is has the whole width', async () => {
  const made = await make(templateBook('trade-bench'));
  await page.emulateMedia({ media: 'screen' });
  await page.setViewportSize({ width: 390, height: 844 });
  await page.setContent(made.file());
  const { sheet, what, small } = await page.evaluate(() => {
    const box = (one: Element | null) => one?.getBoundingClientRect() ?? new DOMRect();
    const texts = [...document.querySelectorAll('.handover :is(.plan, .map) svg text')];
    return {
      sheet: box(document.querySelector('.handover')).width,
      what: box(document.querySelector('.handover .parts tbody td')).width,
      // A text that reads upwards is as wide as its letters are high.
      small: texts.filter((one) => Math.min(box(one).width, box(one).height) < 9 && (one.textContent ?? '').trim().length > 1).map((one) => one.textContent),
    };
  });
  expect(what).toBeGreaterThan(sheet * 0.8);
  expect(small).toEqual([]);
  made.session.close();
});

it('prints of several benches the lines that are filled in and what they come to, within the paper and within a phone’s window', async () => {
  expect(textOf((await sheetOf('trade-bench')).body)).not.toMatch(/Benches together|Lines that are not counted/);
  const lines = { 2: ['North of the middle path', '3.6 m', '1.5 m', 'A', '2'], 5: ['Annex', '2.4 m', '1.2 m', 'B', '12'] };
  let book = templateBook('trade-bench');
  for (const [line, cells] of Object.entries(lines)) {
    for (const [i, content] of cells.entries()) {
      const change = setCell(book, { address: `Benches.${'ABCDE'[i]}${line}`, content });
      if (isRefused(change)) throw new Error(change.message);
      book = apply(book, change);
    }
  }
  const one = await make(book);
  const text = textOf(one.body).replace(/\s/g, ' ');
  // Eighteen lights hang over each of the two.
  expect(text).toMatch(/North of the middle path\s*length 3\.60 m, width 1\.50 m, scenario A, how many 2, counted yes, benches 2, lights 36,/);
  expect(text).toMatch(/Annex\s*length 2\.40 m, .*counted no: planned for 3\.6 m × 1\.5 m/);
  expect(text).toMatch(/Lines that are not counted\s*1\s*Benches together\s*2\s*The totals\s*not whole: a line is not counted\s*Lights together\s*36/);
  expect(marked(one.body, 'data-cell').filter(({ target }) => /^Benches\.[A-O](?:1|3|4|6|7|8|9)$/.test(target))).toEqual([]);
  for (const paper of ['A4', 'letter'] as const) {
    const { overlaps, outside, tall } = await measure(one, paper);
    expect([...overlaps, ...outside, ...tall], paper).toEqual([]);
  }
  await page.emulateMedia({ media: 'screen' });
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  expect(await page.locator('.handover th').evaluateAll((all) => all.filter((th) => th.textContent?.trim() === '').length)).toBe(0);
  one.session.close();
});

it('would see a picture made of dots, and texts that overlap', async () => {
  await page.setContent(
    `<canvas width="40" height="40"></canvas><p>text</p><script>document.querySelector('canvas').getContext('2d').fillRect(3, 3, 9, 9)</script>`,
  );
  expect(readPdf(await page.pdf()).images).toBeGreaterThan(0);
  const made = await make(templateBook('single-shelf'));
  const file = made.file();
  const crowded = {
    ...made,
    file: () => file.replace('</style>', '.handover .headlines { position: absolute; top: 30mm; left: 0 } .handover header { width: 400mm }</style>'),
  };
  const { overlaps } = await measure(crowded, 'A4');
  expect(overlaps.length).toBeGreaterThan(0);
  made.session.close();
});
