/**
 * The table under "The map" in DEVELOPERS.md is what the check of imports goes by: there is no second list that could differ from it.
 *
 * The first column names a folder (with / at its end) or files; the last what it may import besides itself, each in backquotes with commas
 * between: folders, files, packages. A row inside another's folder adds to what that one may. Anything else in these two columns is refused.
 */
export function readMap(text) {
  const [, section] = /^## The map\n([\s\S]*?)(?=^## |$(?![\s\S]))/m.exec(text) ?? [];
  const lines = (section ?? '').split('\n').filter((line) => line.startsWith('|'));
  if (lines.length < 3) throw new Error('DEVELOPERS.md has no table under “## The map”: nothing says what may be imported.');
  return lines.slice(2).map((line) => {
    const cells = line.split('|').slice(1, -1);
    if (cells.length !== 3) throw new Error(`A row of the map has ${cells.length} columns instead of 3: ${line}`);
    const may = cells[2].trim();
    return { places: quoted(cells[0].trim(), line), may: may === 'anything' || may === 'nothing else' ? [] : quoted(may, line), anything: may === 'anything' };
  });
}

function quoted(cell, line) {
  if (!/^`[^`]+`(?:, `[^`]+`)*$/.test(cell)) {
    throw new Error(
      `A row of the map can't be read: its first column names folders or files, its last what they may import, each in backquotes with commas between, or “nothing else” or “anything”: ${line}`,
    );
  }
  return cell.split(', ').map((each) => each.slice(1, -1));
}
