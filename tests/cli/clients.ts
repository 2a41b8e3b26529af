/** Invented clients whose benches the template's fixtures fit on. */
export function clients(count: number): string {
  const rows = Array.from({ length: count }, (_, i) => {
    const length = 11.6 + ((i * 37) % 40) / 10;
    const width = 1.2 + ((i * 53) % 60) / 100;
    return `Client ${i + 1},${length.toFixed(2)},${width.toFixed(2)} m,${10 + (i % 9)} h/d,${(0.15 + (i % 30) / 100).toFixed(2)}`;
  });
  return `${['client,bench_length [ft],bench_width,light_hours,tariff (EUR/kWh)', ...rows].join('\n')}\n`;
}
