/** Parameters that the day-light functions share. */
export const PPFD = {
  name: 'ppfd',
  quantity: 'light on the leaves (PPFD)',
  unit: 'µmol/m²/s',
  meaning: 'mean over the bench while the lamps are on',
  atLeast: 0,
  atMost: 1e5,
} as const;

export const HOURS = { name: 'hours', quantity: 'photoperiod', unit: 'h/d', meaning: 'hours with the lamps on', atLeast: 0, atMost: 24 } as const;

/** An hour of the clock. */
export const CLOCK = { unit: 'h', atLeast: 0, atMost: 24 } as const;

export const DLI_ASKED = {
  name: 'dli',
  quantity: 'light per day (DLI)',
  unit: 'mol/m²/d',
  meaning: 'the daily light wanted',
  atLeast: 0,
  atMost: 1000,
} as const;

export const DLI_SOURCE =
  'Closed form: 3600 s/h and 1e6 µmol/mol; J. E. Faust and J. Logan, Daily light integral: a research review and high-resolution maps of the United States, HortScience 53(9), 2018, introduction (cited from memory)';
