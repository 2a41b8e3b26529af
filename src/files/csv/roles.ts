/** A mapping column by column, as a person sets it: what each column of the file is for. */
import type { Mapping } from './mapped.ts';

export type Role =
  | { readonly is: 'left out' }
  /** A column of the new table. */
  | { readonly is: 'new' }
  /** Finds the row: by its label, or by what stands in one of its columns (an id). */
  | { readonly is: 'key'; readonly column: 'label' | { readonly id: string } }
  /** Says the unit of its record's bare numbers. */
  | { readonly is: 'unit' }
  /** Values of one column of the table (an id). */
  | { readonly is: 'values'; readonly column: string };

export function roleOf(mapping: Mapping, from: number): Role {
  const own = mapping.columns.some((column) => column.from === from);
  if (mapping.to === 'new table') return { is: own ? 'new' : 'left out' };
  if (typeof mapping.into !== 'string' && mapping.into.from === from) return { is: 'key', column: mapping.into.column };
  if (mapping.unitFrom === from) return { is: 'unit' };
  const column = mapping.columns.find((c) => c.from === from);
  return column ? { is: 'values', column: column.column } : { is: 'left out' };
}

/** The unit of a column's bare numbers, where one is said. */
export const unitOfColumn = (mapping: Mapping, from: number): string | undefined => mapping.columns.find((column) => column.from === from)?.unit;

/** The mapping with another use for one column; a use that only one column can have is taken from the column that had it. */
export function withRole(mapping: Mapping, from: number, role: Role, heading: { readonly title: string; readonly unit?: string }): Mapping {
  const unit = heading.unit === undefined ? {} : { unit: heading.unit };
  if (mapping.to === 'new table') {
    const rest = mapping.columns.filter((column) => column.from !== from);
    if (role.is !== 'new') return { ...mapping, columns: rest };
    return { ...mapping, columns: [...rest, { from, heading: heading.title, ...unit }].sort((a, b) => a.from - b.from) };
  }
  const { unitFrom, ...bare } = mapping;
  const kept = unitFrom !== undefined && unitFrom !== from && role.is !== 'unit' ? { unitFrom } : {};
  const into = role.is === 'key' ? { from, column: role.column } : typeof bare.into !== 'string' && bare.into.from === from ? ('end' as const) : bare.into;
  const rest = bare.columns.filter((column) => column.from !== from && !(role.is === 'values' && column.column === role.column));
  return {
    ...bare,
    into,
    ...(role.is === 'unit' ? { unitFrom: from } : kept),
    columns: role.is === 'values' ? [...rest, { from, column: role.column, ...unit }] : rest,
  };
}

/** The mapping with another unit, or none, for the bare numbers of a column. */
export function withUnit(mapping: Mapping, from: number, symbol: string | undefined): Mapping {
  const set = <C extends { readonly from: number; readonly unit?: string }>(columns: readonly C[]): C[] =>
    columns.map((column) => {
      if (column.from !== from) return column;
      const { unit: _, ...rest } = column;
      return (symbol === undefined ? rest : { ...rest, unit: symbol }) as C;
    });
  return mapping.to === 'new table' ? { ...mapping, columns: set(mapping.columns) } : { ...mapping, columns: set(mapping.columns) };
}
