/** How many sessions must be seen before the booth's own limit can be told from them. Fitted. */
const fewestSessions = 8;

/** Until then: what booths can take at most, 60 s a session from door to door. Common practice, no source. */
const usualMostPerMin = 1;

/** Gaps as short as this show that nothing holds the guests back. Fitted. */
const freeGapMin = 0.5;

/** No booth takes longer than this for one session, common practice; slow evenings have long gaps for want of guests. */
const longestSessionMin = 2.2;

/**
 * The most sessions a minute that the booth can take, from the gaps between those seen, or null when they show
 * no limit. `plannedPerMin` is the rate that the plan counts on: more than that must be possible.
 *
 * Source: the quantiles and the factor were fitted on simulated evenings.
 */
export function capacityPerMin(sessionsAtMs: readonly number[], plannedPerMin: number): number | null {
  if (sessionsAtMs.length < fewestSessions) return Math.max(usualMostPerMin, 3 * plannedPerMin);
  const gapsMin = new Float64Array(sessionsAtMs.length - 1);
  for (let place = 0; place < gapsMin.length; place += 1)
    gapsMin[place] = (sessionsAtMs[place + 1]! - sessionsAtMs[place]!) / 60_000;
  gapsMin.sort();
  if (quantileOf(gapsMin, 0.03) < freeGapMin) return null;
  const short = quantileOf(gapsMin, 0.12);
  return 1 / Math.min(capFactor * meanUpTo(gapsMin, capReach * short), longestSessionMin);
}

/** Gaps up to so many times the short ones are those of a line; the mean of them is a session and a little more. */
const capReach = 2;
const capFactor = 1.05;

function meanUpTo(sorted: Float64Array, most: number): number {
  let sum = 0;
  let count = 0;
  for (const gap of sorted) {
    if (gap > most) break;
    sum += gap;
    count += 1;
  }
  return sum / count;
}

function quantileOf(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const place = Math.floor(at);
  const low = sorted[place]!;
  return low + ((sorted[place + 1] ?? low) - low) * (at - place);
}
