import type { Belief } from "./belief.ts";
import { binAt, type DemandRun } from "./demandRun.ts";
import { diceOf } from "./dice.ts";
import { binStartMs } from "./eveningBins.ts";
import { binExposure, type Closed } from "./exposure.ts";
import { expectSessions, roomForExpected, wanderOn } from "./filterStep.ts";
import { drawPlaces, pickParticles, weightsOf, type Particles } from "./particles.ts";

/** Sessions that each of the guesses expects from `atMs` up to each step. */
export type SessionsAhead = {
  readonly stepsAtMs: readonly number[];
  readonly guesses: number;
  /** Step by step, one figure for each guess. */
  readonly upTo: Float64Array;
  /** The variance of their count when the rate is known, likewise. */
  readonly varianceUpTo: Float64Array;
};

const guesses = 240;

/** Keeps the dice of looking ahead apart from those of the filter. */
const aheadStream = 1_000_000;

/**
 * Lets a part of the guesses, drawn by weight, live on to `untilAtMs`. `particles` have lived through the bin
 * that `atMs` is in, or are those before the opening.
 */
export function lookAhead(
  run: DemandRun,
  particles: Particles,
  limit: number | null,
  stops: readonly Closed[],
  atMs: number,
  untilAtMs: number,
): SessionsAhead {
  const { evening, belief } = run;
  const dice = diceOf(run.plan.key, aheadStream + run.bins);
  const drawn = pickParticles(particles, drawPlaces(weightsOf(particles), guesses, dice.uniform()));
  const stepsAtMs = stepInstants(run, atMs, untilAtMs);
  const upTo = new Float64Array(stepsAtMs.length * guesses);
  const varianceUpTo = new Float64Array(stepsAtMs.length * guesses);
  const expected = roomForExpected(guesses);
  let bin = run.bins;
  for (let step = 1; step < stepsAtMs.length; step += 1) {
    const fromAtMs = stepsAtMs[step - 1]!;
    const toAtMs = stepsAtMs[step]!;
    const row = step * guesses;
    if (toAtMs > evening.openAtMs) {
      const isNext = fromAtMs >= binStartMs(evening, bin + 1);
      if (isNext) bin += 1;
      if (isNext || (bin === 0 && atMs < evening.openAtMs)) wanderBin(drawn, belief, evening.binMs, dice);
      const exposure = binExposure(evening, bin, stops, fromAtMs, toAtMs);
      expectSessions(drawn, belief, binAt(evening, bin, exposure, limit), expected);
    }
    for (let place = row; place < row + guesses; place += 1) {
      upTo[place] = upTo[place - guesses]! + expected.sessions[place - row]!;
      varianceUpTo[place] = varianceUpTo[place - guesses]! + expected.variance[place - row]!;
    }
  }
  return { stepsAtMs, guesses, upTo, varianceUpTo };
}

function wanderBin(drawn: Particles, belief: Belief, binMs: number, dice: ReturnType<typeof diceOf>): void {
  wanderOn(drawn, belief, binMs / 60_000, dice);
}

/** The ask itself, the ends of the bins after it, and the last instant. */
function stepInstants({ evening }: DemandRun, atMs: number, untilAtMs: number): readonly number[] {
  const steps = [atMs];
  const first = Math.max(0, Math.floor((atMs - evening.openAtMs) / evening.binMs) + 1);
  for (let bin = first; ; bin += 1) {
    const endMs = binStartMs(evening, bin);
    if (endMs >= untilAtMs) break;
    steps.push(endMs);
  }
  if (untilAtMs > atMs) steps.push(untilAtMs);
  return steps;
}
