import { zoneOffsetMs } from "../booth/zoneOffset.ts";

const quarterMs = 15 * 60_000;

/**
 * First instants of the quarter-hours on the venue's wall that a stretch touches. Zones differ by whole quarters
 * of an hour, on nights of a change too (tz database), so that one follows the other by fifteen minutes always.
 */
export function quarterStarts(fromAtMs: number, toAtMs: number, zone: string): number[] {
  const wallMs = fromAtMs + zoneOffsetMs(fromAtMs, zone);
  const begin = fromAtMs - (((wallMs % quarterMs) + quarterMs) % quarterMs);
  const count = Math.max(0, Math.ceil((toAtMs - begin) / quarterMs));
  return Array.from({ length: count }, (_, at) => begin + at * quarterMs);
}
