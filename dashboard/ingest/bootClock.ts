import type { ClockSample } from "@boothward/shared-types";

/** What is known of the two clocks of one boot of an agent. */
export type BootClock = {
  readonly bootId: string;
  /** The last samples, oldest first. */
  readonly samples: readonly ClockSample[];
  /** How far the wall clock was behind true time when last seen, ms; null: never seen. */
  readonly wallBehindMs: number | null;
  /** When an item of this boot last claimed to be from the future; null: never. */
  readonly doubtfulAtMs: number | null;
};

/** Eight samples are eighty seconds: long enough for one quick exchange, short enough for a drifting clock. */
const keptSamples = 8;

export function unknownClock(bootId: string): BootClock {
  return { bootId, samples: [], wallBehindMs: null, doubtfulAtMs: null };
}

/**
 * Offset and round trip of one exchange, ms: true time = steady clock + `offsetMs`.
 *
 * **Source:** RFC 5905 section 8, theta and delta.
 */
export function offsetOf({ t1MonoMs, t2Ms, t3Ms, t4MonoMs }: ClockSample): {
  offsetMs: number;
  delayMs: number;
} {
  return {
    offsetMs: (t2Ms - t1MonoMs + (t3Ms - t4MonoMs)) / 2,
    delayMs: t4MonoMs - t1MonoMs - (t3Ms - t2Ms),
  };
}

/** True time minus steady clock, by the sample with the smallest round trip; null without a sample. */
export function bestOffsetMs(samples: readonly ClockSample[]): number | null {
  const exchanges = samples.map(offsetOf).sort((a, b) => a.delayMs - b.delayMs);
  return exchanges[0]?.offsetMs ?? null;
}

/**
 * The clock with one more sample. A sample with a negative round trip cannot have happened (a clock was
 * stepped between its timestamps) and is passed over, or it would count as the quickest for ever.
 */
export function withSample(clock: BootClock, sample: ClockSample): BootClock {
  if (offsetOf(sample).delayMs < 0) return clock;
  const samples = [...clock.samples, sample].slice(-keptSamples);
  const offsetMs = bestOffsetMs(samples);
  const wallBehindMs = offsetMs === null ? null : sample.t4MonoMs + offsetMs - sample.t4WallMs;
  return { ...clock, samples, wallBehindMs };
}
