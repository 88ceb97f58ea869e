import type { Format } from "../../alerts/format.ts";
import { Fitted } from "./Fitted.tsx";
import type { Room } from "./Fitted.tsx";
import { placeLabels } from "./placeLabels.ts";
import type { Axis } from "./stripInput.ts";

const hourMs = 3_600_000;

type AxisProps = { axis: Axis; nowMs: number; format: Format };

/** The one clock of the wide table: whole hours, and now in bold where the line through all strips begins. */
export function TimeAxis(props: AxisProps) {
  return (
    <div class="axisrow" aria-hidden="true">
      <div class="axis">
        <Fitted>{(room) => <AxisIn {...props} {...room} />}</Fitted>
      </div>
    </div>
  );
}

function AxisIn({ axis, nowMs, format, widthPx, textPx }: AxisProps & Room) {
  const x = (atMs: number) => ((atMs - axis.fromAtMs) / (axis.toAtMs - axis.fromAtMs)) * (widthPx - 2);
  const hours = Array.from(
    { length: Math.round((axis.toAtMs - axis.fromAtMs) / hourMs) + 1 },
    (_, i) => axis.fromAtMs + i * hourMs,
  );
  const labels = placeLabels(
    [
      { text: format.clock(nowMs), xPx: x(nowMs), anchor: "middle", tone: "b" },
      ...hours.map((atMs) => ({ text: format.clock(atMs), xPx: x(atMs), anchor: "middle" as const })),
    ],
    textPx,
    widthPx,
    4 * textPx,
  );
  return (
    <svg class="strip" viewBox={`0 0 ${widthPx} 54`} width={widthPx} height="54">
      {labels.map((label) => (
        <text key={label.text} class={label.tone} x={label.xPx} y="24" text-anchor="middle">
          {label.text}
        </text>
      ))}
      <path class="now" d={`M${x(nowMs)} 30V60`} />
    </svg>
  );
}
