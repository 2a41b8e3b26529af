/** One line of a benchmark's figures, in ms: how many, the middle, the 95th per cent and the most. */
export function spread(name, values) {
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share) => (sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN).toFixed(1).padStart(6);
  return `${name.padEnd(44)} n ${String(sorted.length).padStart(4)}  p50 ${at(0.5)}  p95 ${at(0.95)}  most ${at(1)} ms`;
}
