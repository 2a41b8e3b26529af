/** What the client's building has, by the ids of rows, which every template gives to the same thing. It is asked for, and no plan may choose it. */
const FACTS: Readonly<Record<string, string>> = {
  breaker: 'breaker',
  breaker_assumed: 'breaker',
  circuits_free: 'circuits_free',
  circuits_assumed: 'circuits_free',
  spare_power: 'spare_power',
  mains_volts: 'mains_volts',
  hang_points: 'hang_points',
  hang_rating: 'hang_rating',
};

/** The fact that a row says, whether it is known or stands in for an answer that lacks; undefined where it is none. */
export const factOf = (row: string): string | undefined => FACTS[row];
