/** Crops and stages that were named, as lines of the template's list of crops. */
import type { Candidate, Plants } from './takes.ts';
import { type Said, SEVERAL } from './things.ts';

const SEEDLINGS = 'vegetable seedlings';

export function cropsOf(list: Plants | undefined, said: readonly Said[]): { readonly candidates: readonly Candidate[]; readonly rest: readonly Said[] } {
  if (!list) return { candidates: [], rest: said };
  const stages = said.filter(({ means }) => means === 'stage');
  const patterns = stages.map((stage) => new RegExp(stage.among?.[0] ?? '(?!)', 'iu'));
  const isThere = (name: string): boolean => list.lines.some(([crop]) => crop === name);
  const fits = (name: string): readonly string[] =>
    list.lines.filter(([crop, stage]) => crop === name && patterns.some((pattern) => pattern.test(stage))).map(([, stage]) => stage);
  const candidates: Candidate[] = [];
  const named = said.filter(({ means }) => means === 'crop');
  const found = named.flatMap((one) => {
    const there = (one.among ?? []).filter(isThere);
    const meant = there.find((name) => fits(name).length > 0) ?? there[0];
    return meant === undefined ? [] : [{ one, meant, near: meant !== one.among?.[0] || one.ask !== undefined }];
  });
  const different = new Set(found.map(({ meant }) => meant));
  for (const { one, meant, near } of found) {
    const ask = different.size > 1 ? SEVERAL : near ? (one.ask ?? 'It is the nearest in the list of crops.') : undefined;
    candidates.push({ at: list.crop, value: meant, unit: '', listed: true, from: one.from, to: one.to, ask });
  }
  const seedling = stages.find(({ value }) => /^(?:seedling|start|plug|young|transplant|sow)/u.test(String(value)));
  if (found.length === 0 && seedling && isThere(SEEDLINGS))
    candidates.push({ at: list.crop, value: SEEDLINGS, unit: '', listed: true, from: seedling.from, to: seedling.to, ask: 'Which crop it is is not said.' });
  const [only] = different.size === 1 || found.length === 0 ? [...different, SEEDLINGS] : [];
  const may = only === undefined ? [] : [...new Set(fits(only))].slice(0, 3);
  const [first] = stages;
  const unnamed = named.filter((one) => !found.some((each) => each.one === one));
  if (!first || !list.stage || may.length === 0) return { candidates, rest: [...unnamed, ...stages.filter((one) => one !== seedling || found.length > 0)] };
  for (const stage of may)
    candidates.push({
      at: list.stage,
      value: stage,
      unit: '',
      listed: true,
      from: first.from,
      to: first.to,
      ask: may.length > 1 ? SEVERAL : 'It is the stage nearest to what was said.',
    });
  return { candidates, rest: [...unnamed, ...stages.slice(1)] };
}
