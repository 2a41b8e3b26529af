/** The hand-over sheet of a book: asks the engine what the book does not hold, and sets it all in the order in which it is read. */
import { html, nothing, type TemplateResult } from 'lit/html.js';
import type { Book } from '../book/book.ts';
import { canonicalText } from '../book/canonical.ts';
import type { Address, Engine, PictureField, TraceNode, Values } from '../engine/types.ts';

import { checksum } from '../files/book/index.ts';
import { pointsOver, readPicture, type Series } from '../pictures/index.ts';

import { applies } from './applies.ts';
import { brings, confirm, paid } from './client.ts';
import { compared, head, headlines, lacking, stillOpen, verdict } from './front.ts';
import { grids, lightList, map, spread, squaresOf } from './light.ts';
import { plan } from './plan.ts';
import { Reader } from './reader.ts';
import { assumptions, checks, givens, granted, ranked } from './rests.ts';
import { costs, electrics, parts, periods, settings, supposed, upkeep } from './schedule.ts';
import { side } from './side.ts';
import { type Swing, swings } from './swing.ts';
import { cautions, notCalculated, signing } from './words.ts';
import { WORKED, workings } from './workings.ts';

type Ask = <T>(question: (engine: Engine) => Promise<T>) => Promise<T>;

/** All that a sheet says, ready to be set. */
export interface Sheet {
  readonly reader: Reader;
  readonly fingerprint: string;
  /** What the book's light map draws of the scenario; undefined where it has none, or no light can be worked out. */
  readonly light: { readonly series: Series; readonly caption: string; readonly map: PictureField; readonly squares: PictureField } | undefined;
  readonly traces: readonly TraceNode[];
  /** How far each given moves the plan, by address. */
  readonly swings: ReadonlyMap<Address, Swing>;
}

export async function gather(book: Book, values: Values, ask: Ask, scenario?: string): Promise<Sheet> {
  const reader = new Reader(book, values, scenario);
  const addresses = WORKED.flatMap((id) => reader.row(id) ?? [])
    .filter((found) => found.value.kind !== 'error' && applies(reader, found))
    .map((found) => found.address);
  const light = await lightOf(reader, ask);
  const traces = await ask((engine) => Promise.all(addresses.map((address) => engine.trace(address))));
  return { reader, fingerprint: checksum(canonicalText(book)), light, traces, swings: await swings(reader, givens(reader), ask) };
}

async function lightOf(reader: Reader, ask: Ask): Promise<Sheet['light']> {
  const { book, values, letter } = reader;
  const block = book.pages.flatMap((page) => page.blocks).find((b) => b.kind === 'picture' && b.picture === 'light map');
  if (block?.kind !== 'picture') return undefined;
  const series = readPicture(block, book, values).series.find((s) => s.letter === letter);
  const dim = reader.number('dim') ?? 1;
  if (!series) return undefined;
  const [along, across] = [reader.number('grid_along'), reader.number('grid_across')];
  // The points that evenness is reckoned at, where the book says them: then the map's lowest point is that of the cells.
  const fine = along !== undefined && across !== undefined ? { nx: along, ny: across } : pointsOver(series.length, series.width);
  const coarse = squaresOf(series.length, series.width);
  const fields = await ask((engine) =>
    Promise.all([engine.field(series.layout, series.height, fine.nx, fine.ny, 1), engine.field(series.layout, series.height, coarse.nx, coarse.ny, dim)]),
  );
  const [whole, squares] = fields;
  return 'refused' in whole || 'refused' in squares ? undefined : { series, caption: block.caption, map: whole, squares };
}

export function sheet({ reader, fingerprint, light, traces, swings: found }: Sheet): TemplateResult {
  return html`<article class="handover">
    <div class="client">
      ${head(reader, fingerprint)}${verdict(reader)}${lacking(reader)}${headlines(reader)}
      <div class="two">${brings(reader)}${paid(reader)}</div>
      ${stillOpen(reader)}
      ${confirm(reader)}${granted(reader, found)}${cautions()}
    </div>
    <h1>For the installer</h1>
    ${light ? plan(reader, light.map) : html`<p class="refused">No plan or light map: the light can’t be worked out from what is known.</p>`}
    <div class="two beside">${light ? side(reader, light.map) : nothing}${settings(reader)}</div>
    ${compared(reader)}
    ${parts(reader)}
    ${light ? map(reader, light.series, light.caption, light.map) : nothing}
    ${light ? grids(reader, light.squares) : nothing}
    ${spread(reader)}
    <div class="columns">${costs(reader)}${electrics(reader)}${upkeep(reader)}${lightList(reader)}</div>
    ${periods(reader)}
    ${checks(reader)}
    ${ranked(reader, found)}${assumptions(reader, found)}${supposed(reader)}
    ${notCalculated(reader)}${cautions()}${signing()}
    ${workings(reader, traces)}
    <p class="foot">Calculated by Overbench for evenly lit flat faces that shine straight down with the stated beam. A planning estimate, to be confirmed by measurement.</p>
  </article>`;
}
