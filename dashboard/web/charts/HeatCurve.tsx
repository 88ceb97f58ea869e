import type { BoothEvening } from "@boothward/shared-types/view";
import { heat as words } from "../words/en/booth.ts";
import type { Format } from "../words/format.ts";
import { Canvas } from "./Canvas.tsx";
import type { Ink } from "./Canvas.tsx";
import { marksPlugin } from "./marks.ts";
import { timeTicks } from "./timeTicks.ts";

type Reading = BoothEvening["inside"][number];

type HeatCurveProps = {
  inside: readonly Reading[];
  fromAtMs: number;
  nowMs: number;
  limitC: number;
  format: Format;
  label: string;
};

/** A gap longer than this between readings is left open, ms. */
const gapMs = 6 * 60_000;

/** Temperature at the printer as measured, with the limit named and now at the right. */
export function HeatCurve(props: HeatCurveProps) {
  const last = props.inside.at(-1);
  const data = [props.inside.length, last?.atMs, last?.insideC, props.nowMs, props.limitC].join();
  return (
    <Canvas label={props.label} data={data} configure={(ink) => heatConfiguration(props, ink)} />
  );
}

function heatConfiguration(props: HeatCurveProps, ink: Ink) {
  const { format } = props;
  const font = { family: ink.face, size: ink.textPx };
  const values = props.inside.map((point) => point.insideC);
  const ticks = timeTicks(props.fromAtMs, props.nowMs, 4);
  return {
    type: "line" as const,
    data: {
      datasets: [
        {
          data: withGaps(props.inside),
          borderColor: ink.ink,
          borderWidth: 1.8,
          pointRadius: 0,
          spanGaps: false,
        },
      ],
    },
    options: {
      animation: false as const,
      responsive: true,
      maintainAspectRatio: false,
      events: [],
      layout: { padding: { right: ink.textPx * 2.8, top: 6 } },
      scales: {
        x: {
          type: "linear" as const,
          min: props.fromAtMs,
          max: props.nowMs,
          afterBuildTicks: (axis: { ticks: { value: number }[] }) => {
            axis.ticks = [...ticks, props.nowMs].map((value) => ({ value }));
          },
          ticks: {
            color: ink.ink2,
            font,
            maxRotation: 0,
            autoSkip: false,
            callback: (atMs: number | string) =>
              atMs === props.nowMs ? words.now : format.clock(Number(atMs)),
          },
          grid: { display: false },
          border: { color: ink.line },
        },
        y: {
          suggestedMin: Math.min(...values, props.limitC - 8) - 1,
          suggestedMax: Math.max(...values, props.limitC) + 1,
          ticks: {
            color: ink.ink2,
            font,
            stepSize: 5,
            callback: (c: number | string) => format.temperature(Number(c)),
          },
          grid: { color: ink.line },
          border: { display: false },
        },
      },
    },
    plugins: [
      marksPlugin(
        [
          { axis: "y", at: props.limitC, name: words.limit, colour: ink.act, isDashed: true },
          { axis: "x", at: props.nowMs, name: words.now, colour: ink.ink, isDashed: false },
        ],
        `400 ${ink.textPx}px ${ink.face}`,
      ),
    ],
  };
}

/** The points of the curve; a hole where nothing was read for a while. */
function withGaps(inside: readonly Reading[]): { x: number; y: number | null }[] {
  return inside.flatMap((point, i) => {
    const before = inside[i - 1];
    const here = { x: point.atMs, y: point.insideC };
    const isGap = before !== undefined && point.atMs - before.atMs > gapMs;
    return isGap ? [{ x: before.atMs + 1, y: null }, here] : [here];
  });
}
