import type { ChartOptions } from "chart.js";
import type { Ink } from "./Canvas.tsx";

/** What every curve of ours has: no motion, nothing by hover, the width and height of its place. */
export const stillOptions = {
  animation: false,
  responsive: true,
  maintainAspectRatio: false,
  events: [],
} satisfies ChartOptions<"line">;

type Scales = NonNullable<ChartOptions<"line">["scales"]>;

/** An axis of time with exactly these ticks, as `text` writes them. */
export function timeAxis(
  ink: Ink,
  ends: { fromAtMs: number; toAtMs: number },
  ticks: readonly number[],
  text: (atMs: number) => string,
): NonNullable<Scales["x"]> {
  return {
    type: "linear",
    min: ends.fromAtMs,
    max: ends.toAtMs,
    afterBuildTicks: (axis) => {
      axis.ticks = ticks.map((value) => ({ value }));
    },
    ticks: {
      color: ink.ink2,
      font: ink.font,
      maxRotation: 0,
      autoSkip: false,
      callback: (atMs) => text(Number(atMs)),
    },
    grid: { display: false },
    border: { color: ink.line },
  };
}

/** An axis of values with faint lines. */
export function valueAxis(
  ink: Ink,
  text: (n: number) => string,
  stepSize?: number,
): NonNullable<Scales["y"]> {
  return {
    ticks: {
      color: ink.ink2,
      font: ink.font,
      maxTicksLimit: 6,
      ...(stepSize === undefined ? {} : { stepSize }),
      callback: (n) => text(Number(n)),
    },
    grid: { color: ink.line },
    border: { display: false },
  };
}
