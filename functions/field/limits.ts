/** Between which values the field is reckoned. Within them the kernel keeps its accuracy; a plan for one bench has no need of more. */
export const LIMITS = {
  fixturesMost: 400,
  benchLeast: 0.01,
  benchMost: 100,
  faceMost: 100,
  ppfMost: 1e6,
  beamLeast: 10,
  beamMost: 170,
  placeMost: 200,
  /** On one side; and the lights of all benches together. */
  besideMost: 100,
  besideFixturesMost: 4000,
  spreadLeast: 0.01,
  spreadMost: 4,
  /** Above it ideal mirrors say more of the formula than of a wall. */
  sidesMost: 0.95,
  heightLeast: 0.01,
  heightMost: 50,
  gridMost: 10_000,
} as const;
