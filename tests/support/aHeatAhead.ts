import type { HeatAhead } from "@boothward/shared-types";
import { eveningAtMs, minuteMs } from "./aBoothView.ts";

/** An hour ahead from `nowC` to `thenC`, the band of eight in ten widening to 2.5 C to each side. */
export function aHeatAhead(
  nowC: number,
  thenC: number,
  over: Partial<HeatAhead> = {},
  atMs = eveningAtMs,
): HeatAhead {
  const fan = Array.from({ length: 13 }, (_, step) => {
    const share = step / 12;
    const p50 = nowC + (thenC - nowC) * (1 - (1 - share) ** 1.6);
    const off = 0.15 + 2.35 * share;
    return { atMs: atMs + step * 5 * minuteMs, p10: p50 - off, p50, p90: p50 + off };
  });
  return { sensor: "printer", basis: "enoughData", fan, crossChance60: 0.03, crossAtMs: null, ...over };
}
