/**
 * A shortest circle through each file that lies on one, none said twice; empty where no file comes back to itself.
 * `graph` says of each file what it imports.
 */
export function circles(graph) {
  const seen = new Set();
  const found = [];
  for (const start of graph.keys()) {
    if (seen.has(start)) continue;
    const circle = shortest(graph, start);
    if (circle === undefined) continue;
    for (const file of circle) seen.add(file);
    found.push(circle);
  }
  return found;
}

/** From a file back to itself, breadth first, so that the way is as short as any. */
function shortest(graph, start) {
  const before = new Map();
  const queue = [start];
  for (const file of queue) {
    for (const next of graph.get(file) ?? []) {
      if (next === start) return wayTo(file, before, [start]);
      if (before.has(next)) continue;
      before.set(next, file);
      queue.push(next);
    }
  }
  return undefined;
}

function wayTo(file, before, way) {
  return before.has(file) ? wayTo(before.get(file), before, [file, ...way]) : [file, ...way];
}
