/** A limit that nobody has given is unknown: whichever a check reads is blanked in turn, in every template. */
import { describe, expect, test } from 'vitest';
import { cellAt, placeIn, tableNamed } from '../../src/book/address.ts';
import { clearCells } from '../../src/book/commands/clear-cells.ts';
import { rowHeading, standingOf } from '../../src/book/look-up.ts';
import { isRefused } from '../../src/book/refused.ts';
import type { Session } from '../../src/session.ts';
import { cells, openTemplate, slugs } from './open-template.ts';
import { readsOf } from './references.ts';

/**
 * Which arguments of the checks are limits, counted from 0; with a limit stands what is assumed in its place, and only without both is it unknown.
 * What is marked on an enclosure or an output may be as unknown as what is asked.
 */
const LIMITS: Readonly<Record<string, readonly (readonly number[])[]>> = {
  'CHECK.AT.MOST': [[1, 3]],
  'CHECK.AT.LEAST': [[1, 3]],
  'CHECK.WITHIN': [[1], [2]],
  'CHECK.BAND': [[2], [3]],
  'CHECK.DAY.LENGTH': [[0, 3]],
  'CHECK.TEMPERATURE': [[1]],
  'CHECK.IP': [[0], [1]],
  'CHECK.LIMITED': [[0], [1], [2]],
  'CHECK.FUSE': [[0], [1], [2], [3]],
  'METER.VERDICT': [[2]],
};

/** What says that a band is only one that was tried, and words for what is assumed, are no values and no limits. */
const ASIDE: Readonly<Record<string, readonly number[]>> = { 'CHECK.AT.MOST': [4], 'CHECK.AT.LEAST': [4], 'CHECK.BAND': [7], 'CHECK.FUSE': [4] };

/** The arguments of the last check in a formula: of a light with its own driver the first may ask something else. */
function checkIn(formula: string): { readonly name: string; readonly args: readonly string[] } | undefined {
  const found = [...formula.matchAll(/(CHECK\.[A-Z.]+|METER\.VERDICT)\(/g)].at(-1);
  return found && { name: found[1] ?? '', args: argsFrom(formula.slice(found.index + found[0].length)) };
}

/** Arguments up to the bracket that closes them, split at the commas that stand in no brackets. */
function argsFrom(text: string): readonly string[] {
  const args: string[] = [''];
  let depth = 0;
  for (const letter of text) {
    if (letter === ')' && depth === 0) break;
    if (letter === '(') depth++;
    if (letter === ')') depth--;
    if (letter === ',' && depth === 0) args.push('');
    else args[args.length - 1] += letter;
  }
  return args;
}

/** What a formula says of a light that hangs on a supply. */
const onSupply = (content: string): string => (/^=IF\([A-Z]+\d+="mains",/.test(content) ? `=${argsFrom(content.slice('=IF('.length))[2]}` : content);

/** The cells that somebody fills in and from which a limit is read: itself, the place of a look-up, a row of Crops, or one with its stand-in. */
function givenBehind(session: Session, table: string, text: string): readonly string[] {
  const { book, values } = session;
  return [...readsOf(book, table, `=${text}`).single].flatMap((address): readonly string[] => {
    const at = cellAt(book, address);
    const content = onSupply(at?.cell?.content ?? '');
    if (!at || !content.startsWith('=')) return at ? [address] : [];
    const looked = /^=INDEX\((\w+)\.\$([A-Z]+)\$(\d+):\$[A-Z]+\$\d+,(.+)\)$/.exec(content);
    if (looked) {
      const [row] = readsOf(book, at.table.name, `=${looked[4]}`).single;
      const place = row === undefined ? undefined : values[row];
      return place?.kind === 'number' ? [`${looked[1]}.${looked[2]}${Number(looked[3]) + place.base - 1}`] : [];
    }
    if (content.startsWith('=CROP.')) return cropRow(session);
    return /^=IF\((?:ISNUMBER\()?/.test(content) || /^=[A-Za-z_.$0-9]+$/.test(content) ? givenBehind(session, at.table.name, content.slice(1)) : [];
  });
}

/** All that Crops says of the crop and stage that are asked for, save their names. */
function cropRow({ book, values }: Session): readonly string[] {
  const table = tableNamed(book, 'Crops');
  const [crop, stage] = ['crop', 'stage'].map((name) => values[(book.names[name] ?? '').replaceAll('$', '')]);
  const row =
    table?.rows.findIndex((_, r) => [crop, stage].every((wanted, c) => JSON.stringify(values[`Crops.${'AB'[c]}${r + 1}`]) === JSON.stringify(wanted))) ?? -1;
  if (!table || row < 1) throw new Error('The crop is not in Crops.');
  // PPFD, DLI, hours and day length: numbers and the word for day length; who says so stays.
  return table.columns.flatMap((_, c) => (c >= 2 && c <= 10 && placeIn(table, c, row)?.cell ? [`Crops.${String.fromCharCode(65 + c)}${row + 1}`] : []));
}

async function withBlank<T>(session: Session, addresses: readonly string[], look: () => T): Promise<T> {
  const answer = session.run((book) => clearCells(book, { addresses }));
  if (isRefused(answer)) throw new Error(`${addresses.join()}: ${answer.message}`);
  await session.settled();
  const seen = look();
  session.undo();
  await session.settled();
  return seen;
}

const textAt = (session: Session, address: string): string => {
  const value = session.values[address];
  return value?.kind === 'text' ? value.text : value?.kind === 'error' ? `error: ${value.word}` : '';
};

describe.each(slugs)('the checks of %s', (slug) => {
  test('say unknown where a limit is blank, and the verdict never holds then', async () => {
    const session = await openTemplate(slug);
    const { book } = session;
    const checks = cells(book).filter(({ at }) => standingOf(at) === 'check' && at.columnIndex === 0);
    const verdictOf = (table: string): string => checks.find(({ at }) => at.table.name === table && /^=VERDICT/.test(at.cell?.content ?? ''))?.address ?? '';
    const blanked: string[] = [];
    const wrong: string[] = [];
    for (const { address, at } of checks) {
      const check = checkIn(at.cell?.content ?? '');
      if (!check) continue;
      const label = `${rowHeading(at)} (${address})`;
      const limits = LIMITS[check.name] ?? [];
      expect(limits.length, `${check.name} is known here`).toBeGreaterThan(0);
      const others = check.args.flatMap((_, i) => (limits.flat().includes(i) || ASIDE[check.name]?.includes(i) ? [] : [[i]]));
      for (const group of [...limits, ...others]) {
        const given = [...new Set(group.flatMap((i) => givenBehind(session, at.table.name, check.args[i] ?? '')))];
        if (given.length === 0) continue;
        const values = [...readsOf(book, at.table.name, `=${check.args[0]}`).single];
        const { said, verdict, nothing } = await withBlank(session, given, () => ({
          said: textAt(session, address),
          verdict: textAt(session, verdictOf(at.table.name)),
          nothing: values.some((value) => session.values[value]?.kind === 'error'),
        }));
        const isLimit = limits.includes(group);
        if (isLimit) blanked.push(label);
        // A band of which one end is known can fail all the same. Where the blank leaves no value to be checked either, the check can say nothing at all.
        const fine = isLimit ? /^(unknown|fails)/.test(said) || nothing : !/^(holds|assumed|close to limit)/.test(said);
        if (!fine || said === '') wrong.push(`${label}, ${given.join(' ')} blank: ${said}`);
        if (/^(holds|close to limit)/.test(verdict) || verdict === '') wrong.push(`${label}, ${given.join(' ')} blank: the verdict is ${verdict}`);
      }
    }
    session.close();
    expect(wrong).toEqual([]);
    expect(new Set(blanked).size).toBeGreaterThan(7);
  });
});
