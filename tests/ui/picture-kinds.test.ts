/** Kinds of picture: none stands in the list without all that it needs, and each is drawn for paper as it is for the page. */
import { html } from 'lit/html.js';
import { describe, expect, it } from 'vitest';
import { templateText } from '../../src/handover/text.ts';
import { PICTURES, type PictureKind, pictureKind } from '../../src/pictures/kinds.ts';
import { type Picture, type PictureBlock, picture } from '../../src/pictures/picture.ts';
import { KeptFields } from '../../src/ui/pictures/fields.ts';
import { usualReads } from '../../src/ui/slips/picture-cells.ts';
import { openTemplate } from '../templates/open-template.ts';

/** `npm run types` reads these: a line that is expected to be refused, and is not, is itself a fault. */
it('a kind without a drawing, and a list without a kind, do not compile', () => {
  const whole = { title: 'T', shows: 'S', reads: [], read: () => ({ found: 1, missing: [] }), draw: (found: number) => html`${found}` };
  const { draw: _, ...undrawn } = whole;
  const { read: __, ...unread } = whole;
  expect(picture(whole).title).toBe('T');
  // @ts-expect-error: it has no drawing
  expect(picture(undrawn).title).toBe('T');
  // @ts-expect-error: it reads nothing
  expect(picture(unread).title).toBe('T');
  // @ts-expect-error: what is drawn is not what is read
  expect(picture({ ...whole, draw: (found: string) => html`${found}` }).title).toBe('T');
  const { cut: ___, ...lacking } = PICTURES;
  // @ts-expect-error: the cut is not among them
  expect(Object.keys(lacking satisfies Record<PictureKind, Picture>)).not.toContain('cut');
  // @ts-expect-error: there is no such kind
  expect(Object.keys({ ...PICTURES, other: PICTURES.cut } satisfies Record<PictureKind, Picture>)).toContain('other');
});

it('what is no kind is none, also where every object has something by that name', () => {
  expect(pictureKind('cut')).toBe(PICTURES.cut);
  expect(['constructor', 'toString', 'Cut', ''].map(pictureKind)).toEqual([undefined, undefined, undefined, undefined]);
});

describe('each kind is drawn for paper as for the page, from the cells that it takes of itself', () => {
  const FROM: Readonly<Record<PictureKind, string>> = {
    'light map': 'trade-bench',
    'small light maps': 'trade-bench',
    cut: 'trade-bench',
    'height curve': 'trade-bench',
    'scenario bars': 'trade-bench',
    'monthly light': 'greenhouse-bench',
    'planned beside measured': 'meter-check',
  };
  const SAYS: Readonly<Record<PictureKind, RegExp>> = {
    'light map': /aria-label="Light map A: \d+ fixtures at [^"]*, from \d+ to \d+ µmol\/m²\/s"/,
    'small light maps': /aria-label="Light map B: \d+ fixtures at [^"]*, lowest \d+, mean \d+ µmol\/m²\/s"/,
    cut: /aria-label="PPFD along the middle of the bench: A \d+ to \d+, B \d+ to \d+/,
    'height curve': /aria-label="Mean PPFD against mount height: A \d+ at 0\.\d+\sm, B \d+/,
    'scenario bars': /aria-label="Caption: A [\d.]+\s?µmol\/m²\/s, B /,
    'monthly light': /aria-label="Caption, A, in mol\/m²\/d: January [\d.]+/,
    'planned beside measured': /aria-label="Measured, \d+ places by \d+ rows: mean \d+/,
  };

  it.each(Object.keys(PICTURES) as PictureKind[])('%s', async (kind) => {
    const session = await openTemplate(FROM[kind]);
    const { book, values } = session;
    const reads = usualReads(kind, book, values);
    for (const { key, needed } of PICTURES[kind].reads) if (needed) expect(reads).toHaveProperty(key);
    const block: PictureBlock = { id: 'k', kind: 'picture', picture: kind, caption: 'Caption', reads };
    const { wants, draw } = PICTURES[kind].ready(block, book, values);
    const fields = new KeptFields();
    await fields.fetch((question) => session.ask(question), wants);
    const text = templateText(draw?.({ id: 'k', caption: 'Caption', chosen: '', width: 700, again: (_, piece) => piece() }, fields) ?? html``);
    expect(text).toMatch(SAYS[kind]);
    expect(text).not.toMatch(/NaN|undefined|Infinity/);
    session.close();
  });
});
