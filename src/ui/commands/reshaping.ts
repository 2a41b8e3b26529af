/** The book's own commands for rows, columns, scenarios and cells at large: fetched together, when the first of them is asked for. */
export { addScenario, copyScenario } from '../../book/commands/add-scenario.ts';
export { deleteLines } from '../../book/commands/delete-lines.ts';
export { dropScenario } from '../../book/commands/drop-scenario.ts';
export { fillScenarios } from '../../book/commands/fill-scenarios.ts';
export { insertLines } from '../../book/commands/insert-lines.ts';
export { moveLines } from '../../book/commands/move-lines.ts';
export { repeatCells } from '../../book/commands/put-cells.ts';
export { setHeading, setName } from '../../book/commands/rename.ts';
export { sameAsBase } from '../../book/commands/same-as-base.ts';
export { setDecimals, setWidth, WIDTHS } from '../../book/commands/set-format.ts';
export { setLock } from '../../book/commands/set-lock.ts';
export { setNote } from '../../book/commands/set-note.ts';
export { sortRows } from '../../book/commands/sort-rows.ts';
export { given, workAgain } from './given-or-worked.ts';
