/** Where a cell stands in its table, by numbers from 0. */
export interface Spot {
  readonly row: number;
  readonly column: number;
}

/** In an attribute (`data-spot`): `row,column`. */
export const spotText = ({ row, column }: Spot): string => `${row},${column}`;

export function readSpot(text: string): Spot {
  const [row = 0, column = 0] = text.split(',').map(Number);
  return { row, column };
}
