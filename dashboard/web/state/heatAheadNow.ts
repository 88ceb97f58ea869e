import type { HeatAhead } from "@boothward/shared-types/site";
import type { BoothView } from "@boothward/shared-types/view";

/** A look ahead older than this is no longer one. */
const freshMs = 10 * 60_000;

/** The thermometers of which the next hour can be told now, the one that threatens most first. */
export function heatAheadNow({ outlook }: BoothView, nowMs: number): HeatAhead[] {
  return outlook.heat.filter(
    ({ basis, fan }) => basis === "enoughData" && nowMs - (fan[0]?.atMs ?? -Infinity) < freshMs,
  );
}
