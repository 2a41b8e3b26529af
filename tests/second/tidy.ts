/** Reads the tidy CSV that the product writes. Records as RFC 4180 (Shafranovich, 2005) has them. */

export interface TidyCell {
  readonly address: string;
  readonly table: string;
  readonly names: readonly string[];
  readonly row: string;
  readonly scenario: string;
  readonly kind: string;
  readonly value: string;
  readonly unit: string;
  readonly low: string;
  readonly high: string;
  /** A formula, or content that its value and unit do not say. */
  readonly held: string;
}

/** A text that another program might run goes out with an apostrophe before it. */
const bare = (field: string): string => (field.startsWith("'") ? field.slice(1) : field);

function records(csv: string): string[][] {
  const all: string[][] = [[]];
  const field = /(?:"((?:[^"]|"")*)"|([^,"\r\n]*))(,|\r\n|$)/y;
  while (field.lastIndex < csv.length) {
    const match = field.exec(csv);
    if (!match) throw new Error(`The CSV can't be read after record ${all.length}.`);
    all.at(-1)?.push((match[1]?.replaceAll('""', '"') ?? match[2]) as string);
    if (match[3] !== ',' && field.lastIndex < csv.length) all.push([]);
  }
  return all;
}

export function readTidy(csv: string): TidyCell[] {
  const [head = [], ...rest] = records(csv);
  return rest.map((fields) => {
    if (fields.length !== head.length) throw new Error(`A record has ${fields.length} fields: ${fields.join(' | ')}`);
    const of = (column: string): string => bare(fields[head.indexOf(column)] as string);
    return {
      address: of('address'),
      table: of('table'),
      names: of('name').split(' ').filter(Boolean),
      row: of('row'),
      scenario: of('scenario'),
      kind: of('kind'),
      value: of('value'),
      unit: of('unit'),
      low: of('low'),
      high: of('high'),
      held: of('formula'),
    };
  });
}
