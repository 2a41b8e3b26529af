/** The letters of a column, counted from 0: 0 → A, 26 → AA. */
export const letters = (column) => (column < 26 ? '' : letters(Math.floor(column / 26) - 1)) + String.fromCharCode(65 + (column % 26));
