/** A roll change that something speaks for and nothing proves. Both amounts null: a full kit. */
export type Suspicion = {
  readonly atMs: number;
  readonly sheets: number | null;
  readonly leftPct: number | null;
  readonly isDenied: boolean;
};

/** A person's answer names the moment that the question did, to the millisecond or nearly. */
const sameMomentMs = 60_000;

/** An answer that names no moment is about the evening's last suspicion. */
const answeredWithinMs = 12 * 3_600_000;

/** Whether a person said of this moment that no roll was fitted. */
export function isDenied(denials: readonly number[], atMs: number): boolean {
  return denials.some((each) => Math.abs(each - atMs) <= sameMomentMs);
}

/** The suspicions with the one denied that a person's word at `atMs` is about. */
export function withDenial(suspicions: readonly Suspicion[], atMs: number): readonly Suspicion[] {
  if (suspicions.some((each) => each.isDenied && isDenied([atMs], each.atMs))) return suspicions;
  const meant =
    suspicions.findLast((each) => isDenied([atMs], each.atMs)) ??
    suspicions.findLast((each) => each.atMs <= atMs && each.atMs >= atMs - answeredWithinMs);
  return suspicions.map((each) => (each === meant ? { ...each, isDenied: true } : each));
}
