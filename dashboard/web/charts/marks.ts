import type { Chart, Plugin } from "chart.js";

/** A line across a chart with its name: of a value (`y`) or of a moment (`x`). */
export type Mark = { axis: "x" | "y"; at: number; name: string; colour: string; isDashed: boolean };

/** Draws marks over the lines of a chart; our own, as the package for it is larger than both charts. */
export function marksPlugin(marks: readonly Mark[], font: string): Plugin {
  return {
    id: "marks",
    afterDatasetsDraw: (chart) => {
      for (const mark of marks) drawMark(chart, mark, font);
    },
  };
}

function drawMark(chart: Chart, mark: Mark, font: string): void {
  const { ctx, chartArea: area } = chart;
  const scale = chart.scales[mark.axis];
  if (scale === undefined) return;
  const px = scale.getPixelForValue(mark.at);
  const isAcross = mark.axis === "y";
  if (isAcross ? px < area.top || px > area.bottom : px < area.left || px > area.right + 1) return;
  ctx.save();
  ctx.strokeStyle = ctx.fillStyle = mark.colour;
  ctx.lineWidth = 1.5;
  ctx.setLineDash(mark.isDashed ? [7, 4] : []);
  ctx.beginPath();
  ctx.moveTo(isAcross ? area.left : px, isAcross ? px : area.top - 4);
  ctx.lineTo(isAcross ? area.right : px, isAcross ? px : area.bottom + 3);
  ctx.stroke();
  ctx.font = font;
  ctx.textAlign = isAcross ? "left" : "center";
  ctx.textBaseline = "middle";
  if (isAcross) ctx.fillText(mark.name, area.right + 5, px);
  ctx.restore();
}
