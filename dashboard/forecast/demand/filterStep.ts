import type { Belief } from "./belief.ts";
import { rowAt } from "./curves.ts";
import type { Dice } from "./dice.ts";
import type { BinExposure } from "./exposure.ts";
import { emptyParticles, type Particles } from "./particles.ts";

/** Regimes an evening is in: as usual, a dead stretch, a rush, and the wait for a late start. All figures fitted. */
const usual = 0;
const quiet = 1;
const rush = 2;
const lateStart = 3;
const regimeFactor = Float64Array.of(1, 0.05, 3, 0.05);
const quietPerBin = 0.005;
const rushPerBin = 0.002;
const leavesPerBin = Float64Array.of(0, 5 / 45, 5 / 28, 5 / 55);
const lateStartChance = 0.14;

const endRushFactor = 2.4;
export const endRushMs = 45 * 60_000;

/** A booth's limit is not quite what its data show. */
const limitSd = 0.07;

/** Of those who come while the booth is stopped this share comes again, so fast a bin. */
const comesBack = 0.4;
const comesBackPerBin = 0.45;

/** An evening is never quite dead: sessions a bin. */
const leastRate = 0.015;

/** The guesses before the evening. */
export function firstParticles(belief: Belief, count: number, dice: Dice): Particles {
  const particles = emptyParticles(count);
  const { level, slow, fast } = belief;
  for (let place = 0; place < count; place += 1) {
    const isFar = dice.uniform() < level.wideShare;
    const thrown = dice.normal();
    particles.level[place] = isFar ? level.wideMean + level.wideSd * thrown : level.mean + level.sd * thrown;
    particles.slow[place] = slow.sd * dice.normal();
    particles.fast[place] = fast.sd * dice.normal();
    particles.row[place] = rowAt(belief.curves, (place + dice.uniform()) / count);
    particles.regime[place] = dice.uniform() < lateStartChance ? lateStart : usual;
    particles.endRush[place] = dice.uniform() < belief.endRushChance ? 1 : 0;
    particles.limit[place] = limitSd * dice.normal();
  }
  return particles;
}

/** Lets the guesses live through the time of one bin, in place. */
export function wanderOn(particles: Particles, belief: Belief, binMin: number, dice: Dice): void {
  const { count, slow, fast, regime } = particles;
  const keepSlow = Math.exp(-binMin / belief.slow.tauMin);
  const keepFast = Math.exp(-binMin / belief.fast.tauMin);
  const slowSd = belief.slow.sd * Math.sqrt(1 - keepSlow ** 2);
  const fastSd = belief.fast.sd * Math.sqrt(1 - keepFast ** 2);
  for (let place = 0; place < count; place += 1) {
    slow[place] = keepSlow * slow[place]! + slowSd * dice.normal();
    fast[place] = keepFast * fast[place]! + fastSd * dice.normal();
    const thrown = dice.uniform();
    const now = regime[place]!;
    if (now === usual) {
      if (thrown < quietPerBin) regime[place] = quiet;
      else if (thrown < quietPerBin + rushPerBin) regime[place] = rush;
    } else if (thrown < leavesPerBin[now]!) regime[place] = usual;
  }
}

/** What one bin is like for all guesses. */
export type BinAt = {
  readonly bin: number;
  /** Within the stretch before the close in which some evenings have a rush. */
  readonly isNearClose: boolean;
  readonly exposure: BinExposure;
  /** The most sessions that the booth takes in a whole bin; null: no limit shows. */
  readonly limit: number | null;
};

/** What each guess expects of a bin: the sessions, and the variance of their count. */
export type Expected = { readonly sessions: Float64Array; readonly variance: Float64Array };

export function roomForExpected(count: number): Expected {
  return { sessions: new Float64Array(count), variance: new Float64Array(count) };
}

/** A booth that is never free counts evenly: variance over mean, and the part of a session that a bin's edge cuts. */
const busyOverdispersion = 0.3;
const edgeVariance = 0.3;

/** The longest line that is kept in mind, in sessions. */
const longestLine = 5;

/**
 * Sessions expected of each guess in the part of the bin that is exposed, into `expected`; those who wait for
 * the booth are kept in `particles.waiting`.
 */
export function expectSessions(
  particles: Particles,
  belief: Belief,
  { bin, isNearClose, exposure, limit }: BinAt,
  expected: Expected,
): void {
  const { count, level, slow, fast, row, regime, endRush, waiting } = particles;
  const { shares, bins } = belief.curves;
  const column = Math.min(bin, bins - 1);
  const correction = (belief.slow.sd ** 2 + belief.fast.sd ** 2) / 2;
  const { able, stopped } = exposure;
  const isBack = comesBackPerBin * able;
  for (let place = 0; place < count; place += 1) {
    let rate =
      Math.exp(level[place]! + slow[place]! + fast[place]! - correction) *
      shares[row[place]! * bins + column]! *
      regimeFactor[regime[place]!]!;
    if (isNearClose && endRush[place] === 1) rate *= endRushFactor;
    if (rate < leastRate) rate = leastRate;
    const waited = waiting[place]!;
    const back = waited * isBack;
    const come = rate * able + back;
    const most = limit === null ? Infinity : limit * Math.exp(particles.limit[place]!) * able;
    waiting[place] = waited - back + comesBack * stopped * rate;
    if (come <= most) {
      expected.sessions[place] = come;
      expected.variance[place] = belief.overdispersion * come;
    } else {
      expected.sessions[place] = most;
      expected.variance[place] = busyOverdispersion * most;
      waiting[place]! += Math.max(0, Math.min(come - most, longestLine - waited));
    }
  }
}

/** Exposures under this share of a bin say nothing. */
const leastExposure = 0.02;

/** Weighs the guesses by how well they foresaw a bin's sessions, in place. */
export function weigh(
  particles: Particles,
  expected: Expected,
  sessions: number,
  able: number,
  overdispersion: number,
): void {
  if (able < leastExposure) return;
  const { count, logWeight } = particles;
  // The Poisson count's own constant, so that it can stand beside the normal count of a busy booth.
  const constant = logFactorial(sessions) / overdispersion + Math.log(overdispersion) / 2;
  for (let place = 0; place < count; place += 1) {
    const mean = expected.sessions[place]!;
    const variance = expected.variance[place]!;
    if (variance < 0.9 * mean) {
      const spread = variance + edgeVariance;
      logWeight[place]! -= (sessions - mean) ** 2 / (2 * spread) + Math.log(2 * Math.PI * spread) / 2;
    } else logWeight[place]! += (sessions * Math.log(mean) - mean) / overdispersion - constant;
  }
}

/** Source: Stirling's series; off by less than 1e-3 from 1 on. */
function logFactorial(count: number): number {
  return count === 0
    ? 0
    : count * Math.log(count) - count + Math.log(2 * Math.PI * count) / 2 + 1 / (12 * count);
}
