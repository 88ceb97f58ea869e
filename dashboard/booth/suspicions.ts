/** A roll change that something speaks for and nothing proves. Both amounts null: a full kit. */
export type Suspicion = {
  readonly atMs: number;
  readonly sheets: number | null;
  readonly leftPct: number | null;
  readonly isDenied: boolean;
};

/** A person's answer names the moment that the question did, to the millisecond or nearly. */
const sameMomentMs = 60_000;

/** An answer that names no moment is about what was asked a moment ago. */
const answeredWithinMs = 15 * 60_000;

/** Whether a person said of this moment that no roll was fitted. */
export function isDenied(denials: readonly number[], atMs: number): boolean {
  return denials.some((each) => Math.abs(each - atMs) <= sameMomentMs);
}

/** Whether a person's word at `saidAtMs` can be about a change at `atMs`. */
export function isMeant(saidAtMs: number, atMs: number): boolean {
  return atMs <= saidAtMs + sameMomentMs && atMs >= saidAtMs - answeredWithinMs;
}

/** The suspicion that a person's word at `saidAtMs` is about: the nearest; null: about none. */
export function suspicionMeant(suspicions: readonly Suspicion[], saidAtMs: number): Suspicion | null {
  // Said twice is said once.
  if (suspicions.some((each) => each.isDenied && isDenied([saidAtMs], each.atMs))) return null;
  return suspicions
    .filter((each) => !each.isDenied && isMeant(saidAtMs, each.atMs))
    .reduce<Suspicion | null>((a, b) => (a !== null && far(a, saidAtMs) < far(b, saidAtMs) ? a : b), null);
}

/** The suspicions with this one denied. */
export function withDenied(suspicions: readonly Suspicion[], denied: Suspicion | null): readonly Suspicion[] {
  return suspicions.map((each) => (each === denied ? { ...each, isDenied: true } : each));
}

function far({ atMs }: Suspicion, saidAtMs: number): number {
  return Math.abs(atMs - saidAtMs);
}
