import type { SessionBasis } from "@boothward/shared-types";
import { sameDeedMs, type AuthorityChange } from "./authorities.ts";
import { sessionsBetween, usesBetween, type SessionSeen } from "./bins.ts";
import type { BoothState } from "./boothState.ts";
import { groupUses } from "./sessionGroups.ts";

/** A session that counts. */
export type CountedSession = {
  readonly atMs: number;
  readonly basis: SessionBasis;
  /** null: grouped from prints. */
  readonly sessionId: string | null;
};

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

/** The best first: guests are known to a booth program, their layouts are what they take home. */
export const sessionBases: readonly SessionBasis[] = ["hook", "layouts", "shots", "jobs"];

/**
 * The sessions of a stretch by their authority: the best source that has told of any, from its first word on,
 * or what a person named. Where one source takes over from another, guests that both tell of are counted once
 * and guests that only one tells of are not lost. Prints are grouped only where no source tells of sessions.
 */
export function countedSessions(
  state: Pick<BoothState, "bins" | "counts">,
  stretch: Stretch,
): CountedSessions {
  const { fromAtMs, toAtMs } = stretch;
  const seen = sessionsBetween(state.bins, fromAtMs, toAtMs);
  const { authorities } = state.counts;
  const begin = authorities.findLast((change) => change.atMs <= fromAtMs)?.sessionsBy ?? null;
  const walk = new Walk(begin);
  const changes = authorities.filter((change) => change.atMs > fromAtMs && change.atMs < toAtMs);
  for (const step of inOrder(seen, changes)) {
    if ("sessionId" in step) walk.takeSession(step);
    else walk.takeAuthority(step);
  }
  const named = walk.named;
  const stretches = groupedStretches(begin, changes, stretch, seen.length === 0);
  const groups = stretches.flatMap((each) => groupsIn(state, each));
  const sessions = [...walk.counted, ...groups].sort((a, b) => a.atMs - b.atMs);
  return { sessions, by: named ?? walk.lead ?? (groups.length > 0 ? "jobs" : null) };
}

type Step = SessionSeen | AuthorityChange;

function inOrder(seen: readonly SessionSeen[], changes: readonly AuthorityChange[]): readonly Step[] {
  return changes.length === 0 ? seen : [...seen, ...changes].sort((a, b) => a.atMs - b.atMs);
}

/** One pass over sessions and changes in the order of time. */
class Walk {
  /** What a person named; null: the best there is. */
  named: SessionBasis | null;
  /** The best source that has told of sessions so far. */
  lead: SessionBasis | null = null;
  readonly counted: CountedSession[] = [];
  #seen: SessionSeen[] = [];
  #credit = { sessions: 0, untilAtMs: -Infinity };

  constructor(named: SessionBasis | null) {
    this.named = named;
  }

  takeSession(session: SessionSeen): void {
    const isFirst = this.lead === null || rankOf(session.basis) < rankOf(this.lead);
    if (isFirst && this.named === null && this.#lately(this.counted, session.atMs) > 0) {
      // The guests that a better source tells of first were counted by the one before.
      this.#credit = { sessions: 1, untilAtMs: session.atMs };
    }
    if (isFirst) this.lead = session.basis;
    this.#seen.push(session);
    if (session.basis !== (this.named ?? this.lead)) return;
    if (this.#credit.sessions > 0 && session.atMs <= this.#credit.untilAtMs) {
      this.#credit = { ...this.#credit, sessions: this.#credit.sessions - 1 };
      return;
    }
    this.counted.push(session);
  }

  takeAuthority({ atMs, sessionsBy }: AuthorityChange): void {
    this.named = sessionsBy;
    const basis = sessionsBy ?? this.lead;
    const ofNew = this.#seen.filter((session) => session.basis === basis);
    if (ofNew.length === 0) return;
    const missing = this.#lately(ofNew, atMs) - this.#lately(this.counted, atMs);
    this.#credit = { sessions: Math.max(0, -missing), untilAtMs: atMs + sameDeedMs };
    if (missing > 0) this.counted.push(...ofNew.slice(-missing));
  }

  #lately(list: readonly { readonly atMs: number }[], atMs: number): number {
    let count = 0;
    for (let at = list.length - 1; at >= 0 && (list[at]?.atMs ?? 0) > atMs - sameDeedMs; at--) count++;
    return count;
  }
}

/** The parts of a stretch in which prints are all there is to group sessions from. */
function groupedStretches(
  begin: SessionBasis | null,
  changes: readonly AuthorityChange[],
  stretch: Stretch,
  isNothingSeen: boolean,
): readonly Stretch[] {
  const edges = [{ atMs: stretch.fromAtMs, sessionsBy: begin }, ...changes];
  return edges.flatMap(({ atMs, sessionsBy }, at) => {
    const isGrouped = sessionsBy === "jobs" || (sessionsBy === null && isNothingSeen);
    const toAtMs = edges[at + 1]?.atMs ?? stretch.toAtMs;
    return isGrouped ? [{ ...stretch, fromAtMs: atMs, toAtMs }] : [];
  });
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

function rankOf(basis: SessionBasis): number {
  return sessionBases.indexOf(basis);
}
