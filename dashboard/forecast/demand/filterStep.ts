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
const quietPerBin = 0.004;
const rushPerBin = 0.006;
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
    const sd = dice.uniform() < level.wideShare ? level.wideSd : level.sd;
    particles.level[place] = level.mean + sd * dice.normal();
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

/**
 * Sessions expected of each guess in the part of the bin that is exposed, into `expected`; those who wait for
 * the booth to print again are kept in `particles.waiting`.
 */
export function expectSessions(
  particles: Particles,
  belief: Belief,
  { bin, isNearClose, exposure, limit }: BinAt,
  expected: Float64Array,
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
    const back = waiting[place]! * isBack;
    let sessions = rate * able + back;
    if (limit !== null) sessions = Math.min(sessions, limit * Math.exp(particles.limit[place]!) * able);
    expected[place] = sessions;
    waiting[place] = waiting[place]! - back + comesBack * stopped * rate;
  }
}

/** Exposures under this share of a bin say nothing. */
const leastExposure = 0.02;

/** Weighs the guesses by how well they foresaw a bin's sessions, in place. */
export function weigh(
  particles: Particles,
  expected: Float64Array,
  sessions: number,
  able: number,
  overdispersion: number,
): void {
  if (able < leastExposure) return;
  const { count, logWeight } = particles;
  for (let place = 0; place < count; place += 1) {
    const mean = expected[place]!;
    logWeight[place]! += (sessions * Math.log(mean) - mean) / overdispersion;
  }
}
