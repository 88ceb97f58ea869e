/** The first waiting time, and the one it doubles up to ([B2]). */
const firstWaitMs = 500;
const lastWaitMs = 30_000;

/**
 * How long to wait before the next try: a random share of a time that doubles with each try, so that many
 * agents do not come back all at once. `dice` is between 0 and 1.
 */
export function backOffMs(triesBefore: number, dice: number): number {
  return dice * Math.min(lastWaitMs, firstWaitMs * 2 ** triesBefore);
}
