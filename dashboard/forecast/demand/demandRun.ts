import { beliefOf, type Belief } from "./belief.ts";
import { capacityPerMin } from "./capacity.ts";
import type { DemandInput } from "./demandInput.ts";
import { diceOf } from "./dice.ts";
import { binOfChange, binStartMs, eveningBins, type EveningBins } from "./eveningBins.ts";
import { binExposure, type BinExposure, type Closed } from "./exposure.ts";
import {
  endRushMs,
  expectSessions,
  roomForExpected,
  firstParticles,
  wanderOn,
  weigh,
  type BinAt,
} from "./filterStep.ts";
import { copyParticles, resampled, type Particles } from "./particles.ts";

/**
 * The filter at the end of the last completed bin, with what it was made from. A memo: keep it and hand it in
 * with the next ask. What it holds is never changed, so one run may be handed in many times.
 */
export type DemandRun = {
  readonly plan: DemandInput["plan"];
  readonly past: DemandInput["past"];
  readonly evening: EveningBins;
  readonly belief: Belief;
  /** Completed bins that are in it. */
  readonly bins: number;
  /** The sessions and exposures of those bins. */
  readonly sessionsAtMs: readonly number[];
  readonly exposures: readonly BinExposure[];
  readonly limit: number | null;
  readonly particles: Particles;
};

const particleCount = 500;

export function beginRun(input: DemandInput): DemandRun {
  const evening = eveningBins(input.plan);
  const belief = beliefOf(input, evening);
  return {
    plan: input.plan,
    past: input.past,
    evening,
    belief,
    bins: 0,
    sessionsAtMs: [],
    exposures: [],
    limit: limitOf(evening, belief, []),
    particles: firstParticles(belief, particleCount, diceOf(input.plan.key, -1)),
  };
}

/** Bins of the evening that are over at an instant. */
export function completedBins(evening: EveningBins, atMs: number): number {
  return Math.max(0, Math.floor((atMs - evening.openAtMs) / evening.binMs));
}

/** Whether a run was made from a beginning of this input, and of no more than was known by `atMs`. */
export function isPrefix(
  run: DemandRun,
  input: DemandInput,
  stops: readonly Closed[],
  atMs: number,
): boolean {
  if (!isSame(run.plan, input.plan) || !isSame(run.past, input.past)) return false;
  if (run.bins > completedBins(run.evening, atMs)) return false;
  const seen = run.sessionsAtMs;
  if (seen.some((sessionAtMs, place) => input.sessions[place]?.atMs !== sessionAtMs)) return false;
  const next = input.sessions[seen.length];
  if (next !== undefined && run.bins > 0 && binOfChange(run.evening, next.atMs) < run.bins) return false;
  return run.exposures.every((exposure, bin) => {
    const { able, stopped } = wholeBin(run.evening, bin, stops);
    return exposure.able === able && exposure.stopped === stopped;
  });
}

/** Equal in all parts; the same object is so at once. */
function isSame(one: unknown, other: unknown): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}

/** The run with all bins that are over at `atMs`. */
export function advanceRun(
  run: DemandRun,
  input: DemandInput,
  stops: readonly Closed[],
  atMs: number,
): DemandRun {
  const { evening, belief } = run;
  const until = completedBins(evening, atMs);
  if (until <= run.bins) return run;
  let particles = copyParticles(run.particles);
  const expected = roomForExpected(particles.count);
  const sessionsAtMs = [...run.sessionsAtMs];
  const exposures = [...run.exposures];
  let limit = run.limit;
  for (let bin = run.bins; bin < until; bin += 1) {
    const before = sessionsAtMs.length;
    takeSessions(sessionsAtMs, input, binStartMs(evening, bin + 1));
    const sessions = sessionsAtMs.length - before;
    if (sessions > 0) limit = limitOf(evening, belief, sessionsAtMs);
    const exposure = wholeBin(evening, bin, stops);
    exposures.push(exposure);
    const dice = diceOf(input.plan.key, bin);
    wanderOn(particles, belief, evening.binMs / 60_000, dice);
    expectSessions(particles, belief, binAt(evening, bin, exposure, limit), expected);
    weigh(particles, expected, sessions, exposure.able, belief.overdispersion);
    particles = resampled(particles, belief.curves, dice);
  }
  return { ...run, bins: until, sessionsAtMs, exposures, limit, particles };
}

export function binAt(evening: EveningBins, bin: number, exposure: BinExposure, limit: number | null): BinAt {
  const middleMs = binStartMs(evening, bin + 0.5);
  return { bin, isNearClose: middleMs > evening.closeAtMs - endRushMs, exposure, limit };
}

export function limitOf(
  evening: EveningBins,
  belief: Belief,
  sessionsAtMs: readonly number[],
): number | null {
  const lengthMin = (evening.closeAtMs - evening.openAtMs) / 60_000;
  const perMin = capacityPerMin(sessionsAtMs, Math.exp(belief.level.mean) / lengthMin);
  return perMin === null ? null : (perMin * evening.binMs) / 60_000;
}

function wholeBin(evening: EveningBins, bin: number, stops: readonly Closed[]): BinExposure {
  return binExposure(evening, bin, stops, -Infinity, Infinity);
}

/** Adds the sessions up to an instant, which is part of it. */
export function takeSessions(sessionsAtMs: number[], { sessions }: DemandInput, untilAtMs: number): void {
  for (let place = sessionsAtMs.length; place < sessions.length; place += 1) {
    const { atMs } = sessions[place]!;
    if (atMs > untilAtMs) return;
    sessionsAtMs.push(atMs);
  }
}
