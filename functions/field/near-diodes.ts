/** The limit of every model here that takes a face as evenly bright. */
export const NEAR_DIODES = 'The faces are taken as evenly bright: doubtful where the canopy is nearer to them than twice the spacing of their diodes.';
