import type { ReplayView } from "@boothward/shared-types/replayView";
import type { ChartConfiguration, ChartDataset } from "chart.js";
import { stillOptions, timeAxis, valueAxis } from "../charts/axes.ts";
import { Canvas } from "../charts/Canvas.tsx";
import type { Ink } from "../charts/Canvas.tsx";
import { marksPlugin } from "../charts/marks.ts";
import type { Mark } from "../charts/marks.ts";
import { replay as words } from "../words/en/replay.ts";
import { strip } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import { totalsOf } from "./totalsOf.ts";

const hourMs = 3_600_000;

type CurveProps = { view: ReplayView; format: Format; label: string };

/** The forecast of the evening's total at each moment, closing in on what it came to. */
export function ReplayCurve(props: CurveProps) {
  const { bookingId, sheetsUsed, asks } = props.view;
  const data = [bookingId, sheetsUsed, asks.length].join();
  return (
    <Canvas isTall label={props.label} data={data} configure={(ink) => replayConfiguration(props, ink)} />
  );
}

function replayConfiguration({ view, format }: CurveProps, ink: Ink): ChartConfiguration<"line"> {
  const ends = { fromAtMs: view.openAtMs, toAtMs: view.closeAtMs };
  return {
    type: "line",
    data: { datasets: curvesOf(view, ink) },
    options: {
      ...stillOptions,
      layout: { padding: { right: ink.font.size * 2.8, top: ink.font.size * 1.6 } },
      scales: {
        x: timeAxis(ink, ends, hoursOf(view), (atMs) => format.hour(atMs)),
        y: { ...valueAxis(ink, (n) => format.count(n)), beginAtZero: true },
      },
    },
    plugins: [marksPlugin(marksOf(view, format, ink), ink)],
  };
}

/** Used so far, the bands as upright strokes, and the likeliest of each as a dot. */
function curvesOf(view: ReplayView, ink: Ink): ChartDataset<"line">[] {
  const bands = totalsOf(view);
  const used = view.used.map((point) => ({ x: point.atMs, y: point.sheetsUsed }));
  const strokes = bands.flatMap(({ atMs, p10, p90 }) => [
    { x: atMs, y: p10 },
    { x: atMs, y: p90 },
    { x: atMs, y: NaN },
  ]);
  const likeliest = bands.map(({ atMs, p50 }) => ({ x: atMs, y: p50 }));
  return [
    { data: likeliest, showLine: false, pointRadius: 3, pointBackgroundColor: ink.accent, borderWidth: 0 },
    { data: used, borderColor: ink.ink, borderWidth: 1.8, pointRadius: 0 },
    { data: strokes, borderColor: ink.fan, borderWidth: 4, pointRadius: 0 },
  ];
}

function marksOf(view: ReplayView, format: Format, ink: Ink): Mark[] {
  const { warnedAtMs } = view.summary;
  const warned = warnedAtMs === null ? [] : [{ at: warnedAtMs, say: words.warned, colour: ink.plan }];
  const rolls = view.rollChangesAtMs.map((at) => ({ at, say: strip.roll, colour: ink.ink }));
  return [
    ...[...warned, ...rolls].map(({ at, say, colour }): Mark => {
      return { axis: "x", at, name: say(format.clock(at)), colour, isDashed: true };
    }),
    { axis: "y", at: view.sheetsUsed, name: format.count(view.sheetsUsed), colour: ink.ink, isDashed: true },
  ];
}

function hoursOf({ openAtMs, closeAtMs }: ReplayView): number[] {
  const first = Math.ceil(openAtMs / hourMs) * hourMs;
  const count = Math.max(0, Math.floor((closeAtMs - first) / hourMs) + 1);
  return Array.from({ length: count }, (_, i) => first + i * hourMs);
}
