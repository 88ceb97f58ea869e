import { type EveningBins, binStartMs } from "./eveningBins.ts";
import type { Stretch } from "./demandInput.ts";

/** Stretches in which the booth could not print, made free of overlaps; one that goes on ends at `atMs`. */
export function mergedStops(stops: readonly Stretch[], atMs: number): readonly Closed[] {
  const merged: Closed[] = [];
  const closed = stops
    .map(({ fromAtMs, toAtMs }) => ({ fromAtMs, toAtMs: toAtMs ?? Math.max(fromAtMs, atMs) }))
    .filter(({ fromAtMs, toAtMs }) => toAtMs > fromAtMs)
    .sort((a, b) => a.fromAtMs - b.fromAtMs);
  for (const stop of closed) {
    const last = merged.at(-1);
    if (last !== undefined && stop.fromAtMs <= last.toAtMs)
      merged[merged.length - 1] = { fromAtMs: last.fromAtMs, toAtMs: Math.max(last.toAtMs, stop.toAtMs) };
    else merged.push(stop);
  }
  return merged;
}

export type Closed = { readonly fromAtMs: number; readonly toAtMs: number };

/** What part of a bin, of its whole length, the booth was open and could print, and what part it stood stopped. */
export type BinExposure = { readonly able: number; readonly stopped: number };

/** The exposure of the part of a bin between two instants. */
export function binExposure(
  evening: EveningBins,
  bin: number,
  stops: readonly Closed[],
  fromAtMs: number,
  toAtMs: number,
): BinExposure {
  const startMs = Math.max(binStartMs(evening, bin), fromAtMs);
  const endMs = Math.min(binStartMs(evening, bin + 1), toAtMs);
  const openMs = Math.max(0, endMs - startMs);
  let stoppedMs = 0;
  for (const stop of stops)
    stoppedMs += Math.max(0, Math.min(stop.toAtMs, endMs) - Math.max(stop.fromAtMs, startMs));
  return { able: (openMs - stoppedMs) / evening.binMs, stopped: stoppedMs / evening.binMs };
}
