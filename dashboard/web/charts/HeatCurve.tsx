import type { BoothEvening } from "@boothward/shared-types/view";
import type { ChartConfiguration } from "chart.js";
import { heat as words } from "../words/en/booth.ts";
import type { Format } from "../words/format.ts";
import { stillOptions, timeAxis, valueAxis } from "./axes.ts";
import { Canvas } from "./Canvas.tsx";
import type { Ink } from "./Canvas.tsx";
import { marksPlugin } from "./marks.ts";
import { timeTicks } from "./timeTicks.ts";

type Reading = BoothEvening["inside"][number];
type HeatCurveProps = {
  inside: readonly Reading[];
  fromAtMs: number;
  /** The end of the axis: now, to the minute. */
  nowMs: number;
  limitC: number;
  format: Format;
  label: string;
};

/** A gap longer than this between readings is left open, ms. */
const gapMs = 6 * 60_000;
/** The axis shows at least this much below the limit, so that a cool evening looks like one. */
const belowLimitC = 8;
const gridStepC = 5;

/** Temperature at the printer as measured, with the limit named and now at the right. */
export function HeatCurve(props: HeatCurveProps) {
  const last = props.inside.at(-1);
  const data = [props.inside.length, last?.atMs, last?.insideC, props.nowMs, props.limitC].join();
  return <Canvas label={props.label} data={data} configure={(ink) => heatConfiguration(props, ink)} />;
}

function heatConfiguration(props: HeatCurveProps, ink: Ink): ChartConfiguration<"line"> {
  const { inside, fromAtMs, nowMs, limitC, format } = props;
  const values = inside.map((point) => point.insideC);
  const ticks = [...timeTicks(fromAtMs, nowMs, 4), nowMs];
  const clock = (atMs: number) => (atMs === nowMs ? words.now : format.clock(atMs));
  return {
    type: "line",
    data: {
      datasets: [{ data: withGaps(inside), borderColor: ink.ink, borderWidth: 1.8, pointRadius: 0 }],
    },
    options: {
      ...stillOptions,
      layout: { padding: { right: ink.font.size * 2.8, top: 6 } },
      scales: {
        x: timeAxis(ink, { fromAtMs, toAtMs: nowMs }, ticks, clock),
        y: {
          ...valueAxis(ink, (c) => format.temperature(c), gridStepC),
          suggestedMin: Math.min(...values, limitC - belowLimitC) - 1,
          suggestedMax: Math.max(...values, limitC) + 1,
        },
      },
    },
    plugins: [
      marksPlugin(
        [
          { axis: "y", at: limitC, name: words.limit, colour: ink.act, isDashed: true },
          { axis: "x", at: nowMs, name: "", colour: ink.ink, isDashed: false },
        ],
        ink,
      ),
    ],
  };
}

/** The points of the curve; a hole where nothing was read for a while. */
function withGaps(inside: readonly Reading[]): { x: number; y: number }[] {
  return inside.flatMap((point, i) => {
    const before = inside[i - 1];
    const here = { x: point.atMs, y: point.insideC };
    const isGap = before !== undefined && point.atMs - before.atMs > gapMs;
    return isGap ? [{ x: before.atMs + 1, y: NaN }, here] : [here];
  });
}
