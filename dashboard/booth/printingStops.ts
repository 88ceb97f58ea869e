import type { BoothState } from "./boothState.ts";

/** A stretch in which the booth could not print; `toAtMs` null: it goes on. */
export type PrintingStop = { readonly fromAtMs: number; readonly toAtMs: number | null };

/**
 * When the booth could not print, in the order of beginning, without overlaps. A stop of a printer that a newer
 * start of the agent does not know ends with that start.
 */
export function printingStops(state: Pick<BoothState, "printing" | "agent">): readonly PrintingStop[] {
  const stops = state.printing.stops
    .map(({ queue, fromAtMs, toAtMs }) => ({ fromAtMs, toAtMs: toAtMs ?? endOf(state, queue) }))
    .sort((a, b) => a.fromAtMs - b.fromAtMs);
  const merged: PrintingStop[] = [];
  for (const stop of stops) {
    const last = merged.at(-1);
    if (last !== undefined && (last.toAtMs === null || stop.fromAtMs <= last.toAtMs)) {
      merged[merged.length - 1] = { fromAtMs: last.fromAtMs, toAtMs: later(last.toAtMs, stop.toAtMs) };
    } else {
      merged.push(stop);
    }
  }
  return merged;
}

function endOf({ printing, agent }: Pick<BoothState, "printing" | "agent">, queue: string): number | null {
  const printer = printing.printers.find((each) => each.queue === queue);
  const isLeft = agent !== null && (printer?.saidAtMs ?? -Infinity) < agent.startedAtMs;
  return isLeft ? agent.startedAtMs : null;
}

function later(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : Math.max(a, b);
}
