import type { IdleSpell } from "@boothward/shared-types";
import type { BoothState } from "../booth/boothState.ts";
import type { DemandInput } from "./demand/demandInput.ts";
import type { DemandRun } from "./demand/demandRun.ts";
import { forecastDemand } from "./demand/forecastDemand.ts";

/** Shorter spells are ordinary on any evening: nothing is worked out for them. */
const leastMs = 20 * 60_000;

/**
 * How unusual it is that nobody comes: what was to be expected since the last session, by what was known then.
 * The forecast of the spell's beginning knows nothing of the spell, so that an evening's own lulls are in it and the
 * spell does not excuse itself.
 *
 * `before` is the run of the last such look, or null; it saves time and changes no answer.
 */
export function idleAhead(
  input: DemandInput,
  readiness: BoothState["readiness"],
  atMs: number,
  before: DemandRun | null,
): { readonly idle: IdleSpell | null; readonly run: DemandRun | null } {
  const { openAtMs, closeAtMs } = input.plan;
  const sinceAtMs = idleSince(input, readiness, atMs);
  if (sinceAtMs === null || atMs >= closeAtMs || atMs - sinceAtMs < leastMs || sinceAtMs < openAtMs)
    return { idle: null, run: before };
  const { run, ahead } = forecastDemand(before, input, sinceAtMs, atMs);
  const last = ahead.stepsAtMs.length - 1;
  const idle = {
    ...{ sinceAtMs, basis: ahead.basis, noneChance: ahead.atMost(last, 0) },
    sessionsExpected: ahead.mean(last) / ahead.sheetsPerSession,
  };
  return { idle, run };
}

/** Since when the booth could have worked without a session; null: it cannot work now, or is on a break. */
function idleSince(
  { plan, sessions, stops }: DemandInput,
  readiness: BoothState["readiness"],
  atMs: number,
): number | null {
  const word = readiness.findLast((change) => change.atMs <= atMs);
  if (word?.to === "onBreak" && word.atMs >= plan.openAtMs) return null;
  const stop = stops.at(-1);
  if (stop !== undefined && stop.toAtMs === null) return null;
  const opened = readiness.findLast((change) => change.to === "open" && change.atMs <= atMs);
  return Math.max(
    ...[plan.openAtMs, opened?.atMs ?? -Infinity, stop?.toAtMs ?? -Infinity],
    sessions.findLast((session) => session.atMs <= atMs)?.atMs ?? -Infinity,
  );
}
