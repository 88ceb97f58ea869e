import type { BoothEvening } from "@boothward/shared-types/view";
import { Fitted } from "../parts/Fitted.tsx";
import type { Room } from "../parts/Fitted.tsx";
import { heat as words } from "../words/en/booth.ts";
import type { Format } from "../words/format.ts";
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
const heightPx = 132;
const topPx = 12;
/** The axis shows at least this much below the limit, so that a cool evening looks like one. */
const belowLimitC = 8;
const gridStepC = 5;

/** Temperature at the printer as measured, with the limit named and now at the right. */
export function HeatCurve(props: HeatCurveProps) {
  return <Fitted>{(room) => <CurveIn {...props} {...room} />}</Fitted>;
}

function CurveIn(props: HeatCurveProps & Room) {
  const { inside, fromAtMs, nowMs, limitC, format, widthPx, textPx } = props;
  const values = inside.map((point) => point.insideC);
  const lowC = Math.min(...values, limitC - belowLimitC) - 1;
  const highC = Math.max(...values, limitC) + 1;
  const leftPx = textPx * 3.4;
  const rightPx = widthPx - textPx * 2.8;
  const bottomPx = topPx + heightPx;
  const x = (atMs: number) => round(leftPx + ((atMs - fromAtMs) / (nowMs - fromAtMs)) * (rightPx - leftPx));
  const y = (c: number) => round(bottomPx - ((c - lowC) / (highC - lowC)) * heightPx);
  const tallPx = bottomPx + textPx * 2;
  return (
    <svg
      class="curve"
      viewBox={`0 0 ${widthPx} ${tallPx}`}
      width={widthPx}
      height={tallPx}
      role="img"
      aria-label={props.label}
    >
      {gridOf(lowC, highC).map((c) => (
        <g key={c}>
          <path class="grid" d={`M${leftPx} ${y(c)}H${rightPx}`} />
          <text x={leftPx - 6} y={y(c) + 4} text-anchor="end">
            {format.temperature(c)}
          </text>
        </g>
      ))}
      <path class="limit" d={`M${leftPx} ${y(limitC)}H${rightPx}`} />
      <text class="soon" x={rightPx + 5} y={y(limitC) + 4}>
        {words.limit}
      </text>
      <path class="read" d={curvePath(inside, x, y)} />
      <path class="now" d={`M${rightPx} ${topPx - 4}V${bottomPx + 3}`} />
      {timeTicks(fromAtMs, nowMs, 4).map((atMs) => (
        <text key={atMs} x={x(atMs)} y={bottomPx + textPx + 4} text-anchor="middle">
          {format.clock(atMs)}
        </text>
      ))}
      <text class="b" x={rightPx} y={bottomPx + textPx + 4} text-anchor="middle">
        {words.now}
      </text>
    </svg>
  );
}

const round = (px: number): number => Math.round(px * 10) / 10;

function gridOf(lowC: number, highC: number): number[] {
  const first = Math.ceil(lowC / gridStepC) * gridStepC;
  return Array.from({ length: Math.floor((highC - first) / gridStepC) + 1 }, (_, i) => first + i * gridStepC);
}

/** The readings as a line, with a hole where nothing was read for a while. */
function curvePath(inside: readonly Reading[], x: (n: number) => number, y: (n: number) => number): string {
  return inside
    .map((point, i) => {
      const before = inside[i - 1];
      const isStart = before === undefined || point.atMs - before.atMs > gapMs;
      return `${isStart ? "M" : "L"}${x(point.atMs)} ${y(point.insideC)}`;
    })
    .join("");
}
