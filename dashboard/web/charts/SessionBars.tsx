import type { BoothEvening } from "@boothward/shared-types/view";
import type { Plugin } from "chart.js";
import type { Format } from "../words/format.ts";
import { Canvas } from "./Canvas.tsx";
import type { Ink } from "./Canvas.tsx";

type Quarter = BoothEvening["quarters"][number];
type SessionBarsProps = { quarters: readonly Quarter[]; format: Format; label: string };

/** Sessions of each quarter-hour that has begun; the number of the highest is written. */
export function SessionBars(props: SessionBarsProps) {
  const data = props.quarters.map((quarter) => quarter.sessions).join();
  return (
    <Canvas kind="bars" label={props.label} data={data} configure={(ink) => barConfiguration(props, ink)} />
  );
}

function barConfiguration({ quarters, format }: SessionBarsProps, ink: Ink) {
  const sessions = quarters.map((quarter) => quarter.sessions);
  const peak = sessions.indexOf(Math.max(...sessions));
  return {
    type: "bar" as const,
    data: {
      labels: quarters.map((quarter) => quarter.atMs),
      datasets: [
        {
          data: sessions,
          backgroundColor: sessions.map((_, i) => (i === peak ? ink.accent : ink.ink2)),
          categoryPercentage: 1,
          barPercentage: 0.84,
        },
      ],
    },
    options: {
      animation: false as const,
      responsive: true,
      maintainAspectRatio: false,
      events: [],
      layout: { padding: { top: ink.textPx * 1.6 } },
      scales: {
        x: {
          ticks: {
            color: ink.ink2,
            font: { family: ink.face, size: ink.textPx },
            maxRotation: 0,
            autoSkip: false,
            callback: (_: number | string, i: number) => hourLabel(quarters[i], quarters.length, format),
          },
          grid: { display: false },
          border: { color: ink.line },
        },
        y: { display: false, min: 0 },
      },
    },
    plugins: [peakPlugin(peak, `600 ${ink.textPx}px ${ink.face}`, ink.ink)],
  };
}

/** The whole hours; every other one on a long evening. */
function hourLabel(quarter: Quarter | undefined, count: number, format: Format): string {
  if (quarter === undefined || quarter.atMs % 3_600_000 !== 0) return "";
  return count > 32 && (quarter.atMs / 3_600_000) % 2 === 1 ? "" : format.hour(quarter.atMs);
}

function peakPlugin(peak: number, font: string, colour: string): Plugin<"bar"> {
  return {
    id: "peak",
    afterDatasetsDraw: (chart) => {
      const bar = chart.getDatasetMeta(0).data[peak];
      const sessions = chart.data.datasets[0]?.data[peak];
      if (bar === undefined || typeof sessions !== "number" || sessions === 0) return;
      chart.ctx.save();
      chart.ctx.font = font;
      chart.ctx.fillStyle = colour;
      chart.ctx.textAlign = "center";
      chart.ctx.fillText(String(sessions), bar.x, bar.y - 5);
      chart.ctx.restore();
    },
  };
}
