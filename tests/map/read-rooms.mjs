/**
 * The table under "The rooms of the page" in DEVELOPERS.md, lowest first: a room imports none that comes after it. Its first column names the
 * room's folder; a third, where there is one, rooms that it imports all the same until that is mended. Anything else there is refused.
 */
export function readRooms(text) {
  const [, section] = /^## The rooms of the page\n([\s\S]*?)(?=^## |$(?![\s\S]))/m.exec(text) ?? [];
  const lines = (section ?? '').split('\n').filter((line) => line.startsWith('|'));
  if (lines.length < 3) throw new Error('DEVELOPERS.md has no table under “## The rooms of the page”: nothing says which stands over which.');
  return lines.slice(2).map((line) => {
    const [place = '', , still = ''] = line
      .split('|')
      .slice(1, -1)
      .map((cell) => cell.trim());
    return { place: quoted(place, line)[0], still: still === '' ? [] : quoted(still, line) };
  });
}

function quoted(cell, line) {
  if (!/^`[^`]+\/`(?:, `[^`]+\/`)*$/.test(cell)) {
    throw new Error(`A row of the rooms can't be read: its first column names a folder, its third folders or nothing, in backquotes: ${line}`);
  }
  return cell.split(', ').map((each) => each.slice(1, -1));
}
