import { bestOffsetMs, type BootClock } from "./bootClock.ts";

/** An offset is known to about half a round trip: so much "future" is an ordinary measuring error. */
const toleratedFutureMs = 2_000;

type Stamp = { readonly atMs: number; readonly monoMs: number };

/**
 * True time of an item, Unix ms, whole.
 *
 * By its boot's steady clock where the boot has a sample; else by its wall clock, corrected by how far the
 * agent's wall clock is behind now (`wallBehindMs`, null: taken as right). Never later than `receivedAtMs`;
 * `isFromFuture` says that it claimed to be, by more than a measuring error.
 */
export function correctedAtMs(
  stamp: Stamp,
  clock: BootClock,
  wallBehindMs: number | null,
  receivedAtMs: number,
): { atMs: number; isFromFuture: boolean } {
  const offsetMs = bestOffsetMs(clock.samples);
  const claimedMs = Math.round(
    offsetMs === null ? stamp.atMs + (wallBehindMs ?? 0) : stamp.monoMs + offsetMs,
  );
  return {
    atMs: Math.min(claimedMs, receivedAtMs),
    isFromFuture: claimedMs > receivedAtMs + toleratedFutureMs,
  };
}
