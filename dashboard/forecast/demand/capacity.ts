/** How many sessions must be seen before the booth's own limit can be told from them. Fitted. */
const fewestSessions = 8;

/** Gaps as short as this show that nothing holds the guests back. Fitted. */
const freeGapMin = 0.5;

/** No booth takes longer than this for one session, common practice; slow evenings have long gaps for want of guests. */
const longestSessionMin = 2.2;

/**
 * The most sessions a minute that the booth can take, from the gaps between those seen, or null when nothing
 * shows a limit. Read from the data alone: a limit that was guessed did more harm than none.
 *
 * Source: the quantiles and the factor were fitted on simulated evenings.
 */
export function capacityPerMin(sessionsAtMs: readonly number[]): number | null {
  if (sessionsAtMs.length < fewestSessions) return null;
  const gapsMin = new Float64Array(sessionsAtMs.length - 1);
  for (let place = 0; place < gapsMin.length; place += 1)
    gapsMin[place] = (sessionsAtMs[place + 1]! - sessionsAtMs[place]!) / 60_000;
  gapsMin.sort();
  if (quantileOf(gapsMin, 0.03) < freeGapMin) return null;
  return 1 / Math.min(1.12 * quantileOf(gapsMin, 0.12), longestSessionMin);
}

function quantileOf(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const place = Math.floor(at);
  const low = sorted[place]!;
  return low + ((sorted[place + 1] ?? low) - low) * (at - place);
}
