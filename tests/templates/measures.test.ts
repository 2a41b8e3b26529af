/**
 * A book shows one system of measures: all that a reader of a US customary book meets is in feet and inches, °F, pounds, cfm and AWG, and of a metric book none of
 * it is. The values are the same bits in both. A tape's inch and foot: NIST Special Publication 811, 2008, appendix B.
 */

import { html } from 'lit/html.js';
import { describe, expect, it } from 'vitest';
import { apply } from '../../src/book/apply.ts';
import type { Book } from '../../src/book/book.ts';
import { setMeasures } from '../../src/book/commands/set-measures.ts';
import { decimalsOf, noteOf, sourceOf, standingOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import type { Value, Values } from '../../src/engine/types.ts';
import { templateText } from '../../src/handover/text.ts';
import { pictureKind } from '../../src/pictures/kinds.ts';
import type { Session } from '../../src/session.ts';
import { lineOf, workedLine } from '../../src/shown.ts';
import { KeptFields } from '../../src/ui/pictures/fields.ts';
import { type Made, make, textOf } from '../handover/made.ts';
import { cells, slugs, templateBook } from './open-template.ts';

/** Light, energy and time have the same units everywhere. */
const LIGHT = /(?:[µm]?mol|lx per [µm]?mol|kWh)\/(?:m²|kWh)(?:\/\w+)?/gu;
const METRIC =
  /(?:\d[\u202f ]|\d"|, *"|\bin )(?:m|cm|mm|km|m²|cm²|mm²|m³|kg|g|°C|K|N|lx|m³\/h|Ω\/km|\/K|[kµ]?W\/m²)(?![\w/·²³⁻’])|\p{Lu}{3}\/(?:m|m²|kg)(?![\w²])|\b(?:metres?|millimetres?|centimetres?|kilograms?|newtons?)\b/u;
const CUSTOMARY =
  /\d[\u202f ](?:in|ft|lb|lbf|fc|cfm|kft)(?![\w/]| [a-z])|\bin (?:ft|in|lb)\b|[′″]|°F|F°|\bAWG\b|\/ft|\/lb|\d (?:feet|foot|pounds?)\b|\b(?:lengths in feet|Fahrenheit)\b/u;
/** A length in feet with a decimal point is nothing that a tape says. */
const DECIMAL_FEET = /\d\.\d+[\u202f ](?:ft|feet|foot)(?![\w²³])/u;

interface Seen {
  readonly where: string;
  readonly text: string;
}

/**
 * What stays metric in a US customary book. Functions reckon in the units that their sources print, and a working says how a length on the tape becomes the
 * number that goes into the formula: without its unit nobody could work the line again. Tables that a note quotes are quoted as they are printed.
 */
const INTO_FORMULA = /\bin (?:m|cm|mm²|kg|°C|K|\/K|N|m³\/h|Ω\/km|m²|[A-Z]{3}\/m|lx)(?::|$)/u;
const QUOTED = /^(?:IEC|ASTM|NFPA|BS)\b/u;
/** A formula stands as its author wrote it, and so it does in a step that is called by it. */
const AS_WRITTEN = /^[A-Z.]{3,}\([^=]*\b0 m\)/u;
/** A gauge is printed on the cable itself, and a metric book can say it: the row that asks for it is called by its letters. */
const PRINTED_ON_CABLE = /\bAWG\b/u;

const session = (made: Made): Session => made.session;

async function seenIn(made: Made): Promise<readonly Seen[]> {
  const { book, values } = session(made);
  const seen: Seen[] = [];
  const add = (where: string, text: string | undefined): void => {
    if (text) seen.push({ where, text });
  };
  for (const { address, at } of cells(book)) {
    const value = values[address];
    add(`label ${address}`, at.row.label);
    add(`note ${address}`, noteOf(at));
    add(`source ${address}`, sourceOf(at));
    if (!value) continue;
    add(`value ${address}`, value.kind === 'error' ? value.message : lineOf(value, decimalsOf(at)));
    const standing = standingOf(at);
    if ((standing !== 'worked' && standing !== 'check') || (at.table.form === 'scenarios' && at.columnIndex > 0)) continue;
    const trace = await made.session.ask((engine) => engine.trace(address));
    for (const { label, expression, value: result, equals, check, checkShown } of trace.steps)
      add(`step ${address}`, `${label}: ${expression ?? checkShown ?? check ?? ''} = ${result ? workedLine(result) : ''} ${equals ? workedLine(equals) : ''}`);
  }
  for (const page of book.pages)
    for (const block of page.blocks) {
      if (block.kind === 'prose') add(`text on ${page.title}`, block.text.replace(/\{\{.*?\}\}/g, ''));
      if (block.kind !== 'picture') continue;
      const { wants, draw } = pictureKind(block.picture)?.ready(block, book, values) ?? { wants: [], draw: undefined };
      const fields = new KeptFields();
      await fields.fetch((question) => made.session.ask(question), wants);
      const drawn = templateText(draw?.({ id: 'k', caption: block.caption, chosen: '', width: 900, again: (_, piece) => piece() }, fields) ?? html``);
      for (const text of pieces(drawn)) add(`picture ${block.caption}`, text);
    }
  for (const text of pieces(made.body)) add('sheet', text);
  return seen;
}

/** Texts between marks that part them, and names that are read aloud. */
const pieces = (markup: string): readonly string[] => [
  ...markup.split(/<(?!\/?(?:tspan|span|b|small)\b)[^>]*>/).map((piece) => textOf(piece).trim()),
  ...[...markup.matchAll(/aria-label="([^"]*)"/g)].map((match) => textOf(match[1] ?? '')),
];

const customary = (book: Book): Book => {
  const change = setMeasures(book, { measures: 'US customary' });
  if (isRefused(change)) throw new Error(change.message);
  return apply(book, change);
};

/** Without its unit, which alone may differ. */
const bare = (value: Value): unknown =>
  value.kind === 'number' ? value.base : value.kind === 'text' ? value.text : value.kind === 'error' ? value.word : value;
const bits = (values: Values): unknown => Object.fromEntries(Object.entries(values).map(([address, value]) => [address, bare(value)]));

describe.each(slugs)('%s', (slug) => {
  const metric = make(templateBook(slug));
  const us = make(customary(templateBook(slug)));

  it('has the same values in both measures, bit for bit', async () => {
    const [a, b] = [(await metric).session.values, (await us).session.values];
    expect(bits(b)).toEqual(bits(a));
    expect(Object.values(b).filter((value) => value.kind === 'number').length).toBeGreaterThan(50);
  });

  it('shows nothing metric in a US customary book, and no decimal feet', { timeout: 120_000 }, async () => {
    const seen = await seenIn(await us);
    const found = seen.filter(({ text }) => METRIC.test(text.replace(LIGHT, 'light')) && ![INTO_FORMULA, QUOTED, AS_WRITTEN].some((stays) => stays.test(text)));
    expect(found.map(({ where, text }) => `${where}: ${text.slice(0, 160)}`)).toEqual([]);
    expect(seen.filter(({ text }) => DECIMAL_FEET.test(text))).toEqual([]);
    expect(seen.filter(({ text }) => /′/.test(text)).length).toBeGreaterThan(20);
  });

  it('shows nothing US customary in a metric book', { timeout: 120_000 }, async () => {
    const seen = await seenIn(await metric);
    const found = seen.filter(({ text }) => CUSTOMARY.test(text) && !PRINTED_ON_CABLE.test(text));
    expect(found.map(({ where, text }) => `${where}: ${text.slice(0, 160)}`)).toEqual([]);
    expect(seen.filter(({ text }) => METRIC.test(text.replace(LIGHT, 'light'))).length).toBeGreaterThan(20);
  });
});
