import type { BoothEvening } from "@boothward/shared-types/view";
import type { Format } from "../../alerts/format.ts";
import { Fitted } from "../parts/Fitted.tsx";
import type { Room } from "../parts/Fitted.tsx";

type Quarter = BoothEvening["quarters"][number];
type SessionBarsProps = { quarters: readonly Quarter[]; format: Format; label: string };

const hourMs = 3_600_000;
const heightPx = 104;

/** Sessions of each quarter-hour that has begun; the number of the highest is written. */
export function SessionBars(props: SessionBarsProps) {
  return <Fitted>{(room) => <BarsIn {...props} {...room} />}</Fitted>;
}

function BarsIn({ quarters, format, label, widthPx, textPx }: SessionBarsProps & Room) {
  const sessions = quarters.map((quarter) => quarter.sessions);
  const most = Math.max(1, ...sessions);
  const peak = sessions.indexOf(most);
  const topPx = textPx * 1.6;
  const bottomPx = topPx + heightPx;
  const stepPx = widthPx / quarters.length;
  const top = (n: number) => bottomPx - (n / most) * heightPx;
  return (
    <svg
      class="bars"
      viewBox={`0 0 ${widthPx} ${bottomPx + textPx * 2}`}
      width={widthPx}
      height={bottomPx + textPx * 2}
      role="img"
      aria-label={label}
    >
      {sessions.map((n, i) => (
        <rect
          key={i}
          class={i === peak ? "peak" : ""}
          x={i * stepPx + stepPx * 0.08}
          y={top(n)}
          width={stepPx * 0.84}
          height={bottomPx - top(n)}
        />
      ))}
      <path d={`M0 ${bottomPx}H${widthPx}`} />
      {peak >= 0 && (
        <text class="b" x={(peak + 0.5) * stepPx} y={top(most) - 5} text-anchor="middle">
          {most}
        </text>
      )}
      {quarters.map((quarter, i) => (
        <text key={quarter.atMs} x={i * stepPx} y={bottomPx + textPx + 4} text-anchor="start">
          {hourLabel(quarter, quarters.length, format)}
        </text>
      ))}
    </svg>
  );
}

/** The whole hours; every other one on a long evening. */
function hourLabel(quarter: Quarter, count: number, format: Format): string {
  if (quarter.atMs % hourMs !== 0) return "";
  return count > 32 && (quarter.atMs / hourMs) % 2 === 1 ? "" : format.hour(quarter.atMs);
}
