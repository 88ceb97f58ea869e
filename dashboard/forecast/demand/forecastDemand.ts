import type { DemandAhead } from "./demandAhead.ts";
import { demandAheadOf } from "./demandAheadOf.ts";
import type { DemandInput, SeenSession } from "./demandInput.ts";
import { advanceRun, beginRun, binAt, type DemandRun, isPrefix, limitOf, takeSessions } from "./demandRun.ts";
import { diceOf } from "./dice.ts";
import { binExposure, mergedStops, type Closed } from "./exposure.ts";
import { expectSessions, roomForExpected, wanderOn, weigh } from "./filterStep.ts";
import { lookAhead } from "./lookAhead.ts";
import { copyParticles, type Particles } from "./particles.ts";
import { sheetsPerSession } from "./sheetsPerSession.ts";

/** So many sessions seen make a forecast of more than the plan. */
const taughtBySessions = 12;

/**
 * Sheets demanded from `atMs` up to `untilAtMs`, by a log-Gaussian Cox process seen through a particle filter
 * over bins of five minutes. `untilAtMs` may lie past the close: the rate at the close is held on. Sessions
 * after `atMs` are not looked at.
 *
 * `before` is the run of an earlier ask, or null; it saves time and never changes the answer. A stop that goes on
 * is taken to end now.
 */
export function forecastDemand(
  before: DemandRun | null,
  input: DemandInput,
  atMs: number,
  untilAtMs: number,
): { run: DemandRun; ahead: DemandAhead } {
  const stops = mergedStops(input.stops, atMs);
  const start = before !== null && isPrefix(before, input, stops, atMs) ? before : beginRun(input);
  const run = advanceRun(start, input, stops, atMs);
  const seen = input.sessions.filter((session) => session.atMs <= atMs);
  const { particles, limit } = partOfBin(run, input, stops, atMs);
  const sessions = lookAhead(run, particles, limit, stops, atMs, Math.max(atMs, untilAtMs));
  const sheets = sheetsPerSession(run.belief.sheets, seen);
  const ahead = demandAheadOf(sessions, sheets, basisOf(run, seen));
  return { run, ahead };
}

function basisOf({ belief }: DemandRun, seen: readonly SeenSession[]): DemandAhead["basis"] {
  return seen.length >= taughtBySessions ? "learned" : belief.basis;
}

/** The guesses after the part of the bin that is over, weighed by what it showed. */
function partOfBin(
  run: DemandRun,
  input: DemandInput,
  stops: readonly Closed[],
  atMs: number,
): { particles: Particles; limit: number | null } {
  const { evening, belief, bins } = run;
  if (atMs < evening.openAtMs) return { particles: run.particles, limit: run.limit };
  const particles = copyParticles(run.particles);
  wanderOn(particles, belief, evening.binMs / 60_000, diceOf(run.plan.key, bins));
  const sessionsAtMs = [...run.sessionsAtMs];
  takeSessions(sessionsAtMs, input, atMs);
  const sessions = sessionsAtMs.length - run.sessionsAtMs.length;
  const limit = sessions > 0 ? limitOf(evening, belief, sessionsAtMs) : run.limit;
  const exposure = binExposure(evening, bins, stops, -Infinity, atMs);
  const expected = roomForExpected(particles.count);
  expectSessions(particles, belief, binAt(evening, bins, exposure, limit), expected);
  weigh(particles, expected, sessions, exposure.able, belief.overdispersion);
  return { particles, limit };
}
