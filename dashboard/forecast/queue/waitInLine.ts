/** One place that serves one after the other. */
export type Server = {
  readonly perHour: number;
  readonly serviceMs: number;
  /** Standard deviation of the service time as a share of it: 0 always the same (M/D/1), 1 exponential (M/M/1). */
  readonly serviceSpread: number;
};

const hourMs = 3_600_000;

/** A line that grows without end does not within one evening: guests see it and go. Our own choice. */
const mostLoad = 0.95;

/** Share of the time that the place is taken; at most 0.95. */
export function loadOf({ perHour, serviceMs }: Server): number {
  return Math.min(mostLoad, Math.max(0, (perHour * serviceMs) / hourMs));
}

/**
 * How long one who comes at random waits in line, on average, once the line has found its length.
 *
 * **Source:** Pollaczek and Khinchine's formula for the M/G/1 queue, from memory.
 */
export function waitInLineMs(server: Server): number {
  const load = loadOf(server);
  return (load * server.serviceMs * (1 + server.serviceSpread ** 2)) / (2 * (1 - load));
}
