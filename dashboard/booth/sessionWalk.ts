import type { SessionBasis } from "@boothward/shared-types";
import { sameDeedMs, type AuthorityChange } from "./authorities.ts";

/** A session as a source saw it. */
export type CountedSession = {
  readonly atMs: number;
  readonly basis: SessionBasis;
  /** null: grouped from prints. */
  readonly sessionId: string | null;
};

/** The best first: guests are known to a booth program, their layouts are what they take home. */
export const sessionBases: readonly SessionBasis[] = ["hook", "layouts", "shots", "jobs"];

/**
 * Two sources that tell of sessions within this time tell of the same guests: the next are 60 to 100 s later
 * (common practice, no source).
 */
const sameGuestsMs = 60_000;

/** One pass over sessions of all sources and a person's changes, in the order of time: keeps those that count. */
export class SessionWalk {
  /** What a person named; null: the best there is. */
  named: SessionBasis | null;
  /** The best source that has told of sessions so far. */
  lead: SessionBasis | null = null;
  readonly counted: CountedSession[] = [];
  readonly #seen: CountedSession[] = [];
  /** Sessions that another source told of already and that are passed over when this one tells of them. */
  #credit = { sessions: 0, untilAtMs: -Infinity };

  constructor(named: SessionBasis | null) {
    this.named = named;
  }

  takeSession(session: CountedSession): void {
    const isFirst = this.lead === null || rankOf(session.basis) < rankOf(this.lead);
    if (isFirst && this.named === null && lately(this.counted, session.atMs, sameGuestsMs) > 0) {
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
    const missing = lately(ofNew, atMs, sameDeedMs) - lately(this.counted, atMs, sameDeedMs);
    this.#credit = { sessions: Math.max(0, -missing), untilAtMs: atMs + sameDeedMs };
    if (missing > 0) this.counted.push(...ofNew.slice(-missing));
  }
}

function lately(list: readonly { readonly atMs: number }[], atMs: number, withinMs: number): number {
  let count = 0;
  for (let at = list.length - 1; at >= 0 && (list[at]?.atMs ?? 0) > atMs - withinMs; at--) count++;
  return count;
}

function rankOf(basis: SessionBasis): number {
  return sessionBases.indexOf(basis);
}
