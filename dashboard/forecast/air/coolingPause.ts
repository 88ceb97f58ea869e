/** A pause to let the printer cool; `capacityPerHour` is how many guests the booth serves at most, if known. */
export type CoolingPause = {
  readonly pauseMinutes: number;
  readonly guestsPerHour: number;
  readonly capacityPerHour: number | null;
};

/**
 * `guestsHeldUp` come during the pause, `guestsDelayed` also after it while the line clears; `longestWaitMinutes` is
 * the first one's. `clearsInMinutes` after the pause; null, as is `guestsDelayed`, when the capacity is not known or
 * the line never clears.
 */
export type PauseCost = {
  readonly guestsHeldUp: number;
  readonly guestsDelayed: number | null;
  readonly longestWaitMinutes: number;
  readonly clearsInMinutes: number | null;
};

/**
 * What a cooling pause costs in guests: those who come at a steady rate wait, and the line they make shrinks
 * afterwards by what the booth can do beyond that rate (a fluid line: a mean, without its scatter).
 */
export function coolingPauseCost({ pauseMinutes, guestsPerHour, capacityPerHour }: CoolingPause): PauseCost {
  const guestsHeldUp = (guestsPerHour * pauseMinutes) / 60;
  const known = { guestsHeldUp, longestWaitMinutes: pauseMinutes };
  if (capacityPerHour === null || capacityPerHour <= guestsPerHour) {
    return { ...known, guestsDelayed: null, clearsInMinutes: null };
  }
  const clearsInMinutes = (60 * guestsHeldUp) / (capacityPerHour - guestsPerHour);
  const guestsDelayed = (guestsPerHour * (pauseMinutes + clearsInMinutes)) / 60;
  return { ...known, guestsDelayed, clearsInMinutes };
}
