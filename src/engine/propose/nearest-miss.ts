/** Of the arrangements that fail by the same checks, the one that misses them by least: which it is, and by how much, in figures. */
import { showNumber } from '../../../functions/number-text.ts';
import type { At } from '../../book/address.ts';
import { inSentence } from '../../book/label.ts';
import { addressOf, decimalsOf, unitOf } from '../../book/look-up.ts';
import type { Value } from '../types.ts';
import { aimOf, checkLabel, lowEndOf } from './anatomy.ts';
import type { Miss, Probe } from './probe.ts';
import type { Searcher } from './searcher.ts';

/** Arrangements that are looked at. */
const MOST = 2_000;
/** The margin, as a check says it: `fails, 9.1 % below the low end`. */
const MARGIN = /([\d.]+)\s%/u;
const TOO_DARK = /\b(?:below|under) the low end/u;
const TOO_BRIGHT = /\b(?:above|over) the high end/u;

/** A sentence; undefined where the checks name no amount. @param misses those that fail by these checks and by no other */
export function nearestMiss({ probe }: Searcher, checks: readonly number[], misses: readonly Miss[], beat: () => void): string | undefined {
  let best: { readonly miss: Miss; readonly texts: readonly string[]; readonly by: number } | undefined;
  for (const miss of misses.slice(0, MOST)) {
    beat();
    probe.put(miss.arrangement, miss.height, miss.dim, miss.fed);
    const texts = checks.map((i) => textOf(probe.cone.value(i)));
    const margins = texts.map((text) => Number.parseFloat(MARGIN.exec(text)?.[1] ?? '')).filter((one) => !Number.isNaN(one));
    const by = margins.reduce((sum, one) => sum + one, 0);
    if (margins.length > 0 && (!best || by < best.by)) best = { miss, texts, by };
  }
  if (!best) return undefined;
  const { arrangement, height, dim, fed } = best.miss;
  probe.put(arrangement, height, dim, fed);
  const said = best.texts.map((text, n) => {
    const at = probe.anatomy.checks[probe.checks.indexOf(checks[n] ?? -1)];
    const word = TOO_DARK.test(text) ? 'too dark, ' : TOO_BRIGHT.test(text) ? 'too bright, ' : '';
    return `${at ? checkLabel(at) : 'Circuits'} ${word}${text.replace(/^fails, /u, '')}${word ? lightOf(probe) : ''}`;
  });
  return `The nearest is ${inWords(probe, best.miss)}: ${said.join('; ')}.`;
}

const textOf = (value: Value): string => (value.kind === 'text' ? value.text : '');

/** "Rail 45, 1 × 2, at 0.25 m, dimmed to 60 %" */
function inWords({ anatomy, parts }: Probe, { arrangement: { fixture, along, across, turned }, height, dim }: Miss): string {
  const hung = anatomy.parts.height;
  return [
    `${fixture}, ${along} × ${across}`,
    ...(turned ? ['turned'] : []),
    ...(hung ? [`${hung.row.id === 'height' ? 'at' : inSentence(hung.row.label ?? hung.row.id)} ${showNumber(height.metres, unitOf(hung) ?? 'm').text}`] : []),
    ...(parts.includes('dim') ? [`dimmed to ${dim} %`] : []),
  ].join(', ');
}

/** " (maintained mean PPFD 132 µmol/m²/s; PPFD wanted, at least 150 µmol/m²/s)" */
function lightOf(probe: Probe): string {
  const { light, asked } = lowEndOf(probe.book, probe.anatomy.table) ?? aimOf(probe.book, probe.anatomy.table) ?? {};
  const said = (at: At | undefined): string | undefined => {
    const value = at && probe.told(addressOf(at));
    return value?.kind === 'number' ? showNumber(value.base, value.unit, at && decimalsOf(at)).text : undefined;
  };
  const [now, least] = [said(light), said(asked)];
  if (now === undefined) return '';
  return ` (${light?.row.label ? `${inSentence(light.row.label)} ` : ''}${now}${least === undefined ? '' : `; ${inSentence(asked?.row.label ?? 'wanted')} ${least}`})`;
}
