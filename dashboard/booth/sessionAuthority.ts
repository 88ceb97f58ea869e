import type { SessionBasis } from "@boothward/shared-types";
import { sessionsBetween, usesBetween } from "./bins.ts";
import type { BoothState } from "./boothState.ts";
import { groupUses } from "./sessionGroups.ts";
import { SessionWalk, type CountedSession } from "./sessionWalk.ts";

export type CountedSessions = {
  readonly sessions: readonly CountedSession[];
  /** What they are counted by at the end; null: nothing counts them. */
  readonly by: SessionBasis | null;
};

/** A stretch of a booth's time with the open hours in it, if there are any. */
export type Stretch = {
  readonly fromAtMs: number;
  readonly toAtMs: number;
  readonly booking: { readonly openAtMs: number; readonly closeAtMs: number } | null;
};

/**
 * The sessions of a stretch by their authority: the best source that has told of any, from its first word on,
 * or what a person named. Where one source takes over from another, guests that both tell of are counted once
 * and guests that only one tells of are not lost. Groups of prints are the last of the sources: they count until
 * another tells of sessions.
 */
export function countedSessions(
  state: Pick<BoothState, "bins" | "counts">,
  stretch: Stretch,
): CountedSessions {
  const { fromAtMs, toAtMs } = stretch;
  const seen: readonly CountedSession[] = [
    ...sessionsBetween(state.bins, fromAtMs, toAtMs),
    ...groupsIn(state, stretch),
  ];
  const { authorities } = state.counts;
  const begin = authorities.findLast((change) => change.atMs <= fromAtMs)?.sessionsBy ?? null;
  const walk = new SessionWalk(begin);
  const changes = authorities.filter((change) => change.atMs > fromAtMs && change.atMs < toAtMs);
  for (const step of [...seen, ...changes].sort((a, b) => a.atMs - b.atMs)) {
    if ("sessionId" in step) walk.takeSession(step);
    else walk.takeAuthority(step);
  }
  const sessions = [...walk.counted].sort((a, b) => a.atMs - b.atMs);
  return { sessions, by: walk.named ?? walk.lead };
}

/** Groups of prints in the open hours; outside them prints are tests. */
function groupsIn({ bins }: Pick<BoothState, "bins">, stretch: Stretch): readonly CountedSession[] {
  const { booking } = stretch;
  const fromAtMs = Math.max(stretch.fromAtMs, booking?.openAtMs ?? -Infinity);
  const toAtMs = Math.min(stretch.toAtMs, booking?.closeAtMs ?? Infinity);
  return groupUses(usesBetween(bins, fromAtMs, toAtMs)).map(({ atMs }) => ({
    ...{ atMs, basis: "jobs" as const, sessionId: null },
  }));
}
