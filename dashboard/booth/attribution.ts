import { sameDeedMs } from "./authorities.ts";
import { usesBetween, type Use } from "./bins.ts";
import type { BoothState } from "./boothState.ts";
import { countedSessions, type Stretch } from "./sessionAuthority.ts";
import { groupGapMs } from "./sessionGroups.ts";
import type { CountedSession } from "./sessionWalk.ts";

/** Whose each counted print is. */
export type Attribution = {
  readonly by: CountedSession["basis"] | null;
  /** Each session with the pitches that are its own, and when the first of them came; null: none has. */
  readonly sessions: readonly AttributedSession[];
  /** Prints of no session in the open hours. */
  readonly reprints: readonly Use[];
  /** Prints of no session outside them. */
  readonly tests: readonly Use[];
};

export type AttributedSession = {
  readonly atMs: number;
  readonly pitches: number;
  readonly firstPrintAtMs: number | null;
};

/**
 * Gives each counted print of a stretch to its session: the one its source names, else the last one finished at
 * most three minutes before. Others are reprints in the open hours and tests outside them.
 */
export function attribute(state: Pick<BoothState, "bins" | "counts">, stretch: Stretch): Attribution {
  const { sessions, by } = countedSessions(state, stretch);
  const uses = usesBetween(state.bins, stretch.fromAtMs, stretch.toAtMs).filter((use) => use.counted > 0);
  const own = sessions.map(() => 0);
  const firstAtMs = sessions.map((): number | null => null);
  const byId = new Map(sessions.map(({ sessionId }, at) => [sessionId, at]));
  const unclaimed: Use[] = [];
  let at = -1;
  let lastAtMs = -Infinity;
  for (const use of uses) {
    while ((sessions[at + 1]?.atMs ?? Infinity) <= use.atMs) at++;
    const named = use.sessionId === null ? undefined : byId.get(use.sessionId);
    const owner = named ?? (isOf(sessions[at], use, lastAtMs) ? at : null);
    if (owner === at) lastAtMs = use.atMs;
    if (owner === null) unclaimed.push(use);
    else {
      own[owner] = (own[owner] ?? 0) + use.counted;
      firstAtMs[owner] ??= use.atMs;
    }
  }
  const { booking } = stretch;
  const isOpen = ({ atMs }: Use) =>
    booking !== null && atMs >= booking.openAtMs && atMs < booking.closeAtMs + sameDeedMs;
  return {
    by,
    sessions: sessions.map(({ atMs }, index) => ({
      ...{ atMs, pitches: own[index] ?? 0, firstPrintAtMs: firstAtMs[index] ?? null },
    })),
    reprints: unclaimed.filter(isOpen),
    tests: unclaimed.filter((use) => !isOpen(use)),
  };
}

/** A session that finished is followed by its prints; one grouped from prints goes on while they do. */
function isOf(session: CountedSession | undefined, use: Use, lastAtMs: number): boolean {
  if (session === undefined) return false;
  const goesOn = session.basis === "jobs" && use.atMs - lastAtMs <= groupGapMs;
  return goesOn || use.atMs - session.atMs <= sameDeedMs;
}
