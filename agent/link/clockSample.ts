import type { ClockReading, ClockSample } from "@boothward/shared-types";

/** What the dashboard says of one exchange: the agent's own first timestamp, and its two. */
export type Exchange = { readonly t1MonoMs: number; readonly t2Ms: number; readonly t3Ms: number };

/** Completes an exchange with the moment at which the answer came in. */
export function completeSample({ t1MonoMs, t2Ms, t3Ms }: Exchange, at: ClockReading): ClockSample {
  return { t1MonoMs, t2Ms, t3Ms, t4MonoMs: at.monoMs, t4WallMs: at.wallMs };
}

/**
 * How far the far clock is ahead of ours, and how long the way there and back took, both in ms.
 *
 * **Source:** RFC 5905 section 8: theta = ((T2 - T1) + (T3 - T4)) / 2, delta = (T4 - T1) - (T3 - T2).
 */
export function offsetOf(sample: ClockSample): { thetaMs: number; deltaMs: number } {
  const { t1MonoMs: t1, t2Ms: t2, t3Ms: t3, t4MonoMs: t4 } = sample;
  return { thetaMs: (t2 - t1 + (t3 - t4)) / 2, deltaMs: t4 - t1 - (t3 - t2) };
}

/** How far this computer's wall clock is from true time, ms; positive: it is behind. */
export function wallErrorOf(sample: ClockSample): number {
  return sample.t4MonoMs + offsetOf(sample).thetaMs - sample.t4WallMs;
}
