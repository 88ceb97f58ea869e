import type { HeatAhead } from "@boothward/shared-types/site";
import type { BoothEvening } from "@boothward/shared-types/view";
import type { ChartConfiguration } from "chart.js";
import { heat as words } from "../words/en/booth.ts";
import type { Format } from "../../alerts/format.ts";
import { stillOptions, timeAxis, valueAxis } from "./axes.ts";
import { Canvas } from "./Canvas.tsx";
import type { Ink } from "./Canvas.tsx";
import { fanPlugin } from "./fanPlugin.ts";
import { marksPlugin } from "./marks.ts";
import { timeTicks } from "./timeTicks.ts";

type Reading = BoothEvening["inside"][number];
type Fan = HeatAhead["fan"];
type HeatCurveProps = {
  inside: readonly Reading[];
  /** The next hour; empty where there is no look ahead. */
  fan: Fan;
  fromAtMs: number;
  /** Now, to the minute; without a fan the end of the axis. */
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
/** Width of a time on the axis, with its air, as a share of the axis of a phone. */
const labelShare = 0.15;

/** Temperature at the printer: as measured up to now, then the next hour as a fan, with the limit named. */
export function HeatCurve(props: HeatCurveProps) {
  const last = props.inside.at(-1);
  const ahead = props.fan.at(-1);
  const data = [
    ...[props.inside.length, last?.atMs, last?.insideC, props.nowMs, props.limitC],
    ...[ahead?.atMs, ahead?.p50, ahead?.p90],
  ].join();
  return <Canvas label={props.label} data={data} configure={(ink) => heatConfiguration(props, ink)} />;
}

function heatConfiguration(props: HeatCurveProps, ink: Ink): ChartConfiguration<"line"> {
  const { inside, fan, fromAtMs, nowMs, limitC, format } = props;
  const values = [...inside.map((point) => point.insideC), ...fan.flatMap(({ p10, p90 }) => [p10, p90])];
  const toAtMs = Math.max(nowMs, fan.at(-1)?.atMs ?? nowMs);
  const hasFan = toAtMs > nowMs;
  const before = timeTicks(fromAtMs, nowMs, hasFan ? 2 : 4);
  const ticks = [
    ...before.filter((atMs) => nowMs - atMs > (toAtMs - fromAtMs) * labelShare),
    ...[nowMs, ...(hasFan ? [toAtMs] : [])],
  ];
  const clock = (atMs: number) => (atMs === nowMs ? words.now : format.clock(atMs));
  return {
    type: "line",
    data: {
      datasets: [
        { data: withGaps(inside), borderColor: ink.ink, borderWidth: 1.8, pointRadius: 0 },
        {
          data: fan.map(({ atMs, p50 }) => ({ x: atMs, y: p50 })),
          ...{ borderColor: ink.accent, borderWidth: 2, pointRadius: 0 },
        },
      ],
    },
    options: {
      ...stillOptions,
      layout: { padding: { right: ink.font.size * 2.8, top: 6 } },
      scales: {
        x: timeAxis(ink, { fromAtMs, toAtMs }, ticks, clock),
        y: {
          ...valueAxis(ink, (c) => format.temperature(c), gridStepC),
          suggestedMin: Math.min(...values, limitC - belowLimitC) - 1,
          suggestedMax: Math.max(...values, limitC) + 1,
        },
      },
    },
    plugins: [
      fanPlugin(fan, ink.fan),
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
