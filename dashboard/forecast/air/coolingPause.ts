/** A pause to let the printer cool; `capacityPerHour` is how many guests the booth serves at most. */
export type CoolingPause = {
  readonly pauseMinutes: number;
  readonly guestsPerHour: number;
  readonly capacityPerHour: number;
};

/** Who comes in the pause, and after it while the line clears, waits; it is clear `clearsInMinutes` after the pause. */
export type PauseCost = { readonly guestsDelayed: number; readonly clearsInMinutes: number };

/**
 * What a cooling pause costs in guests: those who come at a steady rate wait, and the line they make shrinks
 * afterwards by what the booth can do beyond that rate (a fluid line: a mean, without its scatter). Null: it never
 * clears.
 */
export function coolingPauseCost({
  pauseMinutes,
  guestsPerHour,
  capacityPerHour,
}: CoolingPause): PauseCost | null {
  if (capacityPerHour <= guestsPerHour) return null;
  const clearsInMinutes = (guestsPerHour * pauseMinutes) / (capacityPerHour - guestsPerHour);
  return { guestsDelayed: (guestsPerHour * (pauseMinutes + clearsInMinutes)) / 60, clearsInMinutes };
}
