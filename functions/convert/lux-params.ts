export const LUX = { name: 'lux', quantity: 'illuminance', unit: 'lx', meaning: 'as a lux meter reads it', atLeast: 0, atMost: 1e8 } as const;
export const LUX_PER_PPFD = {
  name: 'lux factor',
  quantity: 'lux per PPFD',
  unit: 'lx per µmol/m²/s',
  meaning: 'of this very spectrum; LAMP.LUX gives usual ones',
  atLeast: 1,
  atMost: 683,
} as const;
export const ONE_SPECTRUM = 'Holds for one spectrum only: lux weighs green, plants do not. With mixed light, or colours, use a quantum meter.';
export const LUX_SOURCE = 'R. W. Thimijan and R. D. Heins, HortScience 18(6):818-822, 1983: one factor for each spectrum (table 3 from memory)';
