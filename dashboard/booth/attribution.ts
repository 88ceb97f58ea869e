import { sameDeedMs } from "./authorities.ts";
import { usesBetween, type Use } from "./bins.ts";
import type { BoothState } from "./boothState.ts";
import { countedSessions, type CountedSession, type Stretch } from "./sessionAuthority.ts";

/** Whose each counted print is. */
export type Attribution = {
  readonly by: CountedSession["basis"] | null;
  /** Each session with the pitches that are its own. */
  readonly sessions: readonly { readonly atMs: number; readonly pitches: number }[];
  /** Prints of no session in the open hours. */
  readonly reprints: readonly Use[];
  /** Prints of no session outside them. */
  readonly tests: readonly Use[];
};

/**
 * Gives each counted print of a stretch to its session: the one its source names, else the last one finished at
 * most three minutes before. Others are reprints in the open hours and tests outside them.
 */
export function attribute(state: Pick<BoothState, "bins" | "counts">, stretch: Stretch): Attribution {
  const { sessions, by } = countedSessions(state, stretch);
  const uses = usesBetween(state.bins, stretch.fromAtMs, stretch.toAtMs).filter((use) => use.counted > 0);
  const own = sessions.map(() => 0);
  const byId = new Map(sessions.map(({ sessionId }, at) => [sessionId, at]));
  const unclaimed: Use[] = [];
  let at = -1;
  for (const use of uses) {
    while ((sessions[at + 1]?.atMs ?? Infinity) <= use.atMs) at++;
    const named = use.sessionId === null ? undefined : byId.get(use.sessionId);
    const owner = named ?? (isOf(sessions[at], use) ? at : null);
    if (owner === null) unclaimed.push(use);
    else own[owner] = (own[owner] ?? 0) + use.counted;
  }
  const { booking } = stretch;
  const isOpen = ({ atMs }: Use) =>
    booking !== null && atMs >= booking.openAtMs && atMs < booking.closeAtMs + sameDeedMs;
  return {
    by,
    sessions: sessions.map(({ atMs }, index) => ({ atMs, pitches: own[index] ?? 0 })),
    reprints: unclaimed.filter(isOpen),
    tests: unclaimed.filter((use) => !isOpen(use)),
  };
}

/** A session grouped from prints is all of them; one that finished is followed by its prints. */
function isOf(session: CountedSession | undefined, use: Use): boolean {
  if (session === undefined) return false;
  return session.basis === "jobs" || use.atMs - session.atMs <= sameDeedMs;
}
