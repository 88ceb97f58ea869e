import type { Chart, Plugin } from "chart.js";
import { placeLabels } from "../parts/placeLabels.ts";
import type { Label } from "../parts/placeLabels.ts";
import type { Ink } from "./Canvas.tsx";

/**
 * A line across a chart: of a value (`y`), named at its right end, or of a moment (`x`), named above it where
 * there is room; the first in a list of marks has the first right to it.
 */
export type Mark = { axis: "x" | "y"; at: number; name: string; colour: string; isDashed: boolean };

/** Draws marks over the curves of a chart; our own, as the package for it is larger than both charts. */
export function marksPlugin(marks: readonly Mark[], { font }: Ink): Plugin {
  const face = `400 ${font.size}px ${font.family}`;
  return {
    id: "marks",
    afterDatasetsDraw: (chart) => {
      const { ctx } = chart;
      ctx.save();
      ctx.font = face;
      for (const mark of marks) drawMark(chart, mark);
      drawNames(chart, marks, font.size);
      ctx.restore();
    },
  };
}

function drawMark(chart: Chart, mark: Mark): void {
  const { ctx, chartArea: area } = chart;
  const px = placeOf(chart, mark);
  if (px === null) return;
  const isAcross = mark.axis === "y";
  ctx.strokeStyle = ctx.fillStyle = mark.colour;
  ctx.lineWidth = 1.5;
  ctx.setLineDash(mark.isDashed ? [7, 4] : []);
  ctx.beginPath();
  ctx.moveTo(isAcross ? area.left : px, isAcross ? px : area.top - 4);
  ctx.lineTo(isAcross ? area.right : px, isAcross ? px : area.bottom + 3);
  ctx.stroke();
  if (!isAcross) return;
  ctx.textAlign = "left";
  ctx.textBaseline = "middle";
  ctx.fillText(mark.name, area.right + 5, px);
}

/** Where a mark stands; null outside the chart. */
function placeOf(chart: Chart, { axis, at }: Mark): number | null {
  const area = chart.chartArea;
  const px = chart.scales[axis]?.getPixelForValue(at);
  if (px === undefined) return null;
  const isInside =
    axis === "y" ? px >= area.top && px <= area.bottom : px >= area.left && px <= area.right + 1;
  return isInside ? px : null;
}

function drawNames(chart: Chart, marks: readonly Mark[], textPx: number): void {
  const { ctx, chartArea: area } = chart;
  const colours = new Map(marks.map((mark) => [mark.name, mark.colour]));
  const labels = marks.flatMap((mark): Label[] => {
    const px = mark.axis === "x" && mark.name !== "" ? placeOf(chart, mark) : null;
    if (px === null) return [];
    const fits = px + ctx.measureText(mark.name).width < chart.width;
    return [{ text: mark.name, xPx: px, anchor: fits ? "start" : "end" }];
  });
  ctx.textBaseline = "bottom";
  for (const label of placeLabels(labels, textPx, chart.width, 0)) {
    ctx.fillStyle = colours.get(label.text) ?? "";
    ctx.textAlign = label.anchor === "middle" ? "center" : label.anchor;
    ctx.fillText(label.text, label.xPx, area.top - 6);
  }
}
