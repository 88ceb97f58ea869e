import type { Severity } from "@boothward/shared-types";

const firstRetryMs = 2_000;
const longestRetryMs = 5 * 60_000;

/** After so long from when it was due a notice helps nobody any more. */
export const giveUpAfterMs: Record<Severity, number> = {
  actNow: 30 * 60_000,
  plan: 2 * 3_600_000,
  note: 6 * 3_600_000,
};

/**
 * How long to wait after the try of this number (from 1): twice as long each time, half of it by the dice, so that
 * many that failed together do not come again together. The other side may ask for longer.
 */
export function retryAfter(tries: number, askedMs: number | null, dice: () => number): number {
  const grown = Math.min(longestRetryMs, firstRetryMs * 2 ** Math.min(20, tries - 1));
  return Math.round(Math.max(askedMs ?? 0, grown * (0.5 + dice() / 2)));
}
