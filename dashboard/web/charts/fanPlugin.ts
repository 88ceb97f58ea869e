import type { FanPoint } from "@boothward/shared-types/view";
import type { Plugin } from "chart.js";
import { fanAt } from "../parts/stripShape.ts";

const strokePx = 3.6;

/** Draws a fan below the curves: upright strokes over the band of eight in ten that thin out with time. */
export function fanPlugin(fan: readonly FanPoint[], colour: string): Plugin {
  return {
    id: "fan",
    beforeDatasetsDraw: ({ ctx, scales }) => {
      const { x, y } = scales;
      const [first, last] = [fan[0], fan.at(-1)];
      if (x === undefined || y === undefined || first === undefined || last === undefined) return;
      const fromPx = x.getPixelForValue(first.atMs);
      const spanPx = x.getPixelForValue(last.atMs) - fromPx;
      ctx.save();
      ctx.fillStyle = colour;
      for (let px = strokePx; px <= spanPx; px += strokePx) {
        const share = px / spanPx;
        const point = fanAt(fan, first.atMs + share * (last.atMs - first.atMs));
        if (point === null) continue;
        const widePx = strokePx * 0.92 * (1 - share) ** 1.3 + 0.8;
        const topPx = y.getPixelForValue(point.p90);
        ctx.fillRect(fromPx + px - widePx / 2, topPx, widePx, y.getPixelForValue(point.p10) - topPx);
      }
      ctx.restore();
    },
  };
}
