import type { DemandAhead } from "./demandAhead.ts";
import type { SessionsAhead } from "./lookAhead.ts";
import { normalBelow, normalQuantile } from "./normal.ts";
import type { SheetsBelief } from "./sheetsPerSession.ts";

/** Mean and variance of the sheets that each guess expects up to a step. */
type Moments = { readonly means: Float64Array; readonly variances: Float64Array };

type Source = {
  readonly sessions: SessionsAhead;
  readonly basis: DemandAhead["basis"];
  readonly sheetsPerSession: number;
  readonly momentsAt: (step: number) => Moments;
};

/** Sheets from sessions: each guess has its own mean sheets a session, drawn evenly from the belief of it. */
export function demandAheadOf(
  sessions: SessionsAhead,
  sheets: SheetsBelief,
  basis: DemandAhead["basis"],
): DemandAhead {
  const { guesses, upTo, varianceUpTo } = sessions;
  const sheetsEach = Float64Array.from({ length: guesses }, (_, place) => {
    // A stride that shares no factor with the number of guesses, so that sheets and sessions are not paired.
    const share = (((place * 97) % guesses) + 0.5) / guesses;
    return Math.max(0.25 * sheets.mean, sheets.mean + sheets.meanSd * normalQuantile(share));
  });
  const momentsAt = (step: number): Moments => {
    const means = new Float64Array(guesses);
    const variances = new Float64Array(guesses);
    for (let place = 0; place < guesses; place += 1) {
      const expected = upTo[step * guesses + place]!;
      const each = sheetsEach[place]!;
      means[place] = expected * each;
      variances[place] = varianceUpTo[step * guesses + place]! * each * each + expected * sheets.variance;
    }
    return { means, variances };
  };
  return aheadFrom({ sessions, basis, sheetsPerSession: sheets.mean, momentsAt });
}

function aheadFrom(source: Source): DemandAhead {
  const { sessions, momentsAt } = source;
  const mixtures = new Map<number, Mixture>();
  const mixtureAt = (step: number): Mixture => {
    if (!Number.isInteger(step) || step < 0 || step >= sessions.stepsAtMs.length)
      throw new Error(`step ${step} of ${sessions.stepsAtMs.length}`);
    const known = mixtures.get(step);
    if (known !== undefined) return known;
    const made = mixtureOf(momentsAt(step));
    mixtures.set(step, made);
    return made;
  };
  const [atMs = 0] = sessions.stepsAtMs;
  return {
    atMs,
    stepsAtMs: sessions.stepsAtMs,
    sheetsPerSession: source.sheetsPerSession,
    basis: source.basis,
    atMost: (step, sheets) => atMostOf(mixtureAt(step), sheets),
    quantile: (step, share) => quantileOf(mixtureAt(step), share),
    mean: (step) => mixtureAt(step).mean,
    withSheetsPerSession: (sheets, fromAtMs) => aheadFrom(changedFrom(source, sheets, fromAtMs)),
  };
}

/** Single sessions at a mean that is set differ by about this share of it. */
const setSpread = 0.3;

/** Sessions after the instant take the new mean. */
function changedFrom(source: Source, sheets: number, fromAtMs: number): Source {
  const { stepsAtMs, guesses, upTo, varianceUpTo } = source.sessions;
  const place = placeOf(stepsAtMs, fromAtMs);
  const sessionsAt = (step: number): Moments => ({
    means: upTo.subarray(step * guesses, (step + 1) * guesses),
    variances: varianceUpTo.subarray(step * guesses, (step + 1) * guesses),
  });
  const before = between(source.momentsAt, place);
  const sessionsBefore = between(sessionsAt, place);
  const momentsAt = (step: number): Moments => {
    if (step <= place) return source.momentsAt(step);
    const sessions = sessionsAt(step);
    const later = sessions.means.map((upToStep, guess) => upToStep - sessionsBefore.means[guess]!);
    return {
      means: later.map((count, guess) => before.means[guess]! + count * sheets),
      variances: later.map(
        (count, guess) =>
          before.variances[guess]! +
          (sessions.variances[guess]! - sessionsBefore.variances[guess]!) * sheets ** 2 +
          count * (setSpread * sheets) ** 2,
      ),
    };
  };
  const isFromNow = fromAtMs <= (stepsAtMs[0] ?? 0);
  return { ...source, sheetsPerSession: isFromNow ? sheets : source.sheetsPerSession, momentsAt };
}

/** An instant as a place in the row of steps, 2.5 for midway between the steps 2 and 3. */
function placeOf(stepsAtMs: readonly number[], atMs: number): number {
  const next = stepsAtMs.findIndex((stepAtMs) => stepAtMs >= atMs);
  if (next < 0) return stepsAtMs.length - 1;
  if (next === 0) return 0;
  const beforeMs = stepsAtMs[next - 1]!;
  return next - 1 + (atMs - beforeMs) / (stepsAtMs[next]! - beforeMs);
}

function between(momentsAt: (step: number) => Moments, place: number): Moments {
  const low = momentsAt(Math.floor(place));
  const high = momentsAt(Math.ceil(place));
  const part = place - Math.floor(place);
  const mix = (a: Float64Array, b: Float64Array) => a.map((from, guess) => from + (b[guess]! - from) * part);
  return { means: mix(low.means, high.means), variances: mix(low.variances, high.variances) };
}

/**
 * A gamma distribution for each guess, made ready for Wilson and Hilferty's cube root: at most x with the
 * chance of a standard normal variable below slope * cbrt(x) - drop.
 *
 * Source: Wilson & Hilferty 1931.
 */
type Mixture = {
  readonly mean: number;
  readonly high: number;
  readonly slopes: Float64Array;
  readonly drops: Float64Array;
};

function mixtureOf({ means, variances }: Moments): Mixture {
  const count = means.length;
  const slopes = new Float64Array(count);
  const drops = new Float64Array(count);
  let sum = 0;
  let high = 0;
  for (let guess = 0; guess < count; guess += 1) {
    const mean = means[guess]!;
    const variance = variances[guess]!;
    sum += mean;
    high = Math.max(high, mean + 8 * Math.sqrt(variance));
    // Nothing expected: at most anything for certain.
    if (!(mean > 0 && variance > 0)) {
      drops[guess] = -Infinity;
      continue;
    }
    const root = 3 * Math.sqrt((mean * mean) / variance);
    slopes[guess] = root / Math.cbrt(mean);
    drops[guess] = root - 1 / root;
  }
  return { mean: sum / count, high: high + 1, slopes, drops };
}

function atMostOf({ slopes, drops }: Mixture, sheets: number): number {
  // Sheets are whole: at most 3 is less than 3.5 of the smooth distribution.
  return sheets < 0 ? 0 : smoothBelow(slopes, drops, Math.floor(sheets) + 0.5);
}

function smoothBelow(slopes: Float64Array, drops: Float64Array, sheets: number): number {
  const root = Math.cbrt(sheets);
  let sum = 0;
  for (let guess = 0; guess < slopes.length; guess += 1)
    sum += normalBelow(slopes[guess]! * root - drops[guess]!);
  return sum / slopes.length;
}

function quantileOf({ slopes, drops, high }: Mixture, share: number): number {
  let low = 0;
  let top = high;
  for (let round = 0; round < 40 && top - low > 0.01; round += 1) {
    const middle = (low + top) / 2;
    if (smoothBelow(slopes, drops, middle) < share) low = middle;
    else top = middle;
  }
  return Math.max(0, (low + top) / 2 - 0.5);
}
