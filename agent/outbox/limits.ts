/** How much the outbox may take and keep. */
export type OutboxLimits = {
  /** When the outbox is larger, the oldest readings are let go of. */
  readonly maxBytes: number;
  /** A file is closed at this size; what is thinned or removed is a file at a time. */
  readonly segmentBytes: number;
  /** Acknowledged items are kept at most this long and this many, for a dashboard restored from a backup. */
  readonly keepAckedMs: number;
  readonly keepAckedBytes: number;
  /** While the disk takes nothing, at most this much waits in memory. */
  readonly waitingBytes: number;
  /** Most bytes of items in one peek: a batch must stay far below the largest frame. */
  readonly peekBytes: number;
};

export const defaultOutboxLimits: OutboxLimits = {
  // About 500,000 readings: a long weekend without any network.
  maxBytes: 128 * 1024 * 1024,
  segmentBytes: 256 * 1024,
  // A nightly backup restored two days later is still covered.
  keepAckedMs: 72 * 3_600_000,
  keepAckedBytes: 32 * 1024 * 1024,
  waitingBytes: 4 * 1024 * 1024,
  peekBytes: 200 * 1024,
};
