import type { DemandAhead } from "../demand/demandAhead.ts";

/** A stretch is quiet when it brings less than this share of what is usual until the roll is empty. Our own choice. */
const quietShare = 0.6;

export type Lull = { readonly fromAtMs: number; readonly toAtMs: number };

/**
 * The quiet stretch that an instant lies in, of the time until `emptyAtMs`; null when it is not quiet then. In
 * steps of the forecast.
 */
export function lullAround(ahead: DemandAhead, atMs: number, emptyAtMs: number): Lull | null {
  const { stepsAtMs } = ahead;
  const until = stepsAtMs.findIndex((each) => each >= emptyAtMs);
  const last = until < 0 ? stepsAtMs.length - 1 : until;
  const perMs = (step: number): number => {
    const lengthMs = (stepsAtMs[step] ?? 0) - (stepsAtMs[step - 1] ?? 0);
    return lengthMs > 0 ? (ahead.mean(step) - ahead.mean(step - 1)) / lengthMs : 0;
  };
  const lengthMs = (stepsAtMs[last] ?? ahead.atMs) - ahead.atMs;
  if (lengthMs <= 0) return null;
  const quietPerMs = (quietShare * ahead.mean(last)) / lengthMs;
  // A step is the end of its stretch: the instant lies in the first whose end comes after it.
  const at = stepsAtMs.findIndex((each) => each > atMs);
  if (at < 1 || at > last || perMs(at) > quietPerMs) return null;
  let [from, to] = [at, at];
  while (from > 1 && perMs(from - 1) <= quietPerMs) from -= 1;
  while (to < last && perMs(to + 1) <= quietPerMs) to += 1;
  return { fromAtMs: stepsAtMs[from - 1] ?? atMs, toAtMs: stepsAtMs[to] ?? atMs };
}
