import type { SeenSession } from "./demandInput.ts";

/** What is known of the mean sheets a session: the mean, its own uncertainty, and the spread of single sessions. */
export type SheetsBelief = { readonly mean: number; readonly meanSd: number; readonly variance: number };

/** Single sessions differ by about this share of the mean until they are seen. Fitted. */
const sessionSpread = 0.45;
/** That share counts as so many sessions. */
const spreadSessions = 8;

/** No session, whatever was counted, is believed to take fewer sheets than this on average. */
const leastMean = 0.02;

/**
 * The belief after the sessions seen, from a normal prior of the mean.
 *
 * Source: the conjugate normal mean at a known variance; any textbook of Bayesian statistics.
 */
export function sheetsPerSession(
  prior: { readonly mean: number; readonly sdShare: number },
  sessions: readonly SeenSession[],
): SheetsBelief {
  const count = sessions.length;
  let sum = 0;
  for (const { sheets } of sessions) sum += sheets;
  const seen = count > 0 ? sum / count : prior.mean;
  let squares = spreadSessions * (sessionSpread * prior.mean) ** 2;
  for (const { sheets } of sessions) squares += (sheets - seen) ** 2;
  const variance = squares / (spreadSessions + count);
  const priorWeight = 1 / (prior.mean * prior.sdShare) ** 2;
  const weight = priorWeight + count / variance;
  const mean = (priorWeight * prior.mean + (count / variance) * seen) / weight;
  return { mean: Math.max(leastMean, mean), meanSd: 1 / Math.sqrt(weight), variance };
}
