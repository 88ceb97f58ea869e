import type { ReplayView } from "@boothward/shared-types/replayView";

/** The rectangle of the plot, px. */
export type ReplayBox = { leftPx: number; rightPx: number; topPx: number; bottomPx: number };

export type ReplayShape = {
  x: (atMs: number) => number;
  y: (sheets: number) => number;
  /** Round numbers of sheets for the axis. */
  steps: number[];
  used: string;
  usedLine: string;
  /** One upright stroke for each moment, over the band of what the whole evening would use. */
  strokes: string;
  /** A tick across each stroke at the likeliest. */
  likeliest: string;
};

const round = (px: number): number => Math.round(px * 10) / 10;

/** Geometry of "as forecast at each moment" against what the evening really used, as a running total. */
export function replayShape(view: ReplayView, box: ReplayBox): ReplayShape {
  const bands = totalsOf(view);
  const most = Math.max(1, view.sheetsUsed, ...bands.map((band) => band.p90));
  const x = (atMs: number) =>
    round(
      box.leftPx + ((atMs - view.openAtMs) / (view.closeAtMs - view.openAtMs)) * (box.rightPx - box.leftPx),
    );
  const y = (sheets: number) => round(box.bottomPx - (sheets / (most * 1.06)) * (box.bottomPx - box.topPx));
  const points = view.used.map((point) => `${x(point.atMs)} ${y(point.sheetsUsed)}`);
  const last = view.used.at(-1);
  const line = points.length === 0 ? "" : `M${points.join("L")}`;
  const widePx = strokeWidth(view, box);
  return {
    x,
    y,
    steps: stepsTo(most),
    used: last === undefined ? "" : `M${x(view.openAtMs)} ${y(0)}L${points.join("L")}V${y(0)}Z`,
    usedLine: line,
    strokes: bands
      .map(({ atMs, p10, p90 }) => {
        const from = round(x(atMs) - widePx / 2);
        return `M${from} ${y(p90)}h${widePx}V${y(p10)}h${-widePx}Z`;
      })
      .join(""),
    likeliest: bands.map(({ atMs, p50 }) => `M${round(x(atMs) - widePx)} ${y(p50)}h${2 * widePx}`).join(""),
  };
}

/** What the whole evening would use, as it was forecast at each moment: used so far and the rest. */
export function totalsOf(view: ReplayView): { atMs: number; p10: number; p50: number; p90: number }[] {
  return view.asks.flatMap(({ atMs, demandToEnd, usedToEnd }) => {
    if (demandToEnd === null) return [];
    const soFar = view.sheetsUsed - usedToEnd;
    const { p10, p50, p90 } = demandToEnd;
    return [{ atMs, p10: soFar + p10, p50: soFar + p50, p90: soFar + p90 }];
  });
}

/** A third of the way from one moment to the next. */
function strokeWidth({ asks }: ReplayView, box: ReplayBox): number {
  return round(Math.min(7, (box.rightPx - box.leftPx) / Math.max(1, asks.length) / 3));
}

/** About three round numbers up to the most. */
function stepsTo(most: number): number[] {
  const step = [10, 20, 50, 100, 200, 500, 1000].find((each) => most / each <= 4) ?? 2000;
  return Array.from({ length: Math.floor(most / step) }, (_, i) => (i + 1) * step);
}
