import type { SunStretch } from "@boothward/shared-types/site";
import { paper } from "./en/booth.ts";
import { listed } from "./en/today.ts";
import type { Format } from "./format.ts";

/** The stretches of sun that reach into these hours. */
export function sunWithin(sun: readonly SunStretch[], fromAtMs: number, toAtMs: number): SunStretch[] {
  return sun.filter((stretch) => stretch.toAtMs > fromAtMs && stretch.fromAtMs < toAtMs);
}

/** "17:05 to 19:02 and 20:10 to 20:30". */
export function sunTimes(sun: readonly SunStretch[], format: Format): string {
  return listed(
    sun.map(({ fromAtMs, toAtMs }) => paper.sunFromTo(format.clock(fromAtMs), format.clock(toAtMs))),
  );
}
