import type { ReplayView } from "@boothward/shared-types/replayView";
import { Fitted } from "../parts/Fitted.tsx";
import type { Room } from "../parts/Fitted.tsx";
import { placeLabels } from "../parts/placeLabels.ts";
import type { Label } from "../parts/placeLabels.ts";
import { replay as words } from "../words/en/replay.ts";
import type { Format } from "../words/format.ts";
import { replayShape } from "./replayShape.ts";

const hourMs = 3_600_000;
const heightPx = 200;
const topPx = 26;

type PictureProps = { view: ReplayView; format: Format; label: string };

/** The forecast of the evening's total at each moment, closing in on what it came to. */
export function ReplayPicture(props: PictureProps) {
  return <Fitted>{(room) => <PictureIn {...props} {...room} />}</Fitted>;
}

function PictureIn({ view, format, label, widthPx, textPx }: PictureProps & Room) {
  const box = { leftPx: textPx * 2.6, rightPx: widthPx - 8, topPx, bottomPx: topPx + heightPx };
  const shape = replayShape(view, box);
  const tallPx = box.bottomPx + textPx * 2;
  const truthPx = shape.y(view.sheetsUsed);
  const above = placeLabels(marksOf(view, shape.x, format), textPx, widthPx);
  return (
    <svg
      class="strip"
      viewBox={`0 0 ${widthPx} ${tallPx}`}
      width={widthPx}
      height={tallPx}
      role="img"
      aria-label={label}
    >
      <path class="ground" d={`M${box.leftPx} ${topPx}H${box.rightPx}V${box.bottomPx}H${box.leftPx}Z`} />
      {shape.steps.map((sheets) => (
        <g key={sheets}>
          <path class="grid" d={`M${box.leftPx} ${shape.y(sheets)}H${box.rightPx}`} />
          <text x={box.leftPx - 6} y={shape.y(sheets) + 4} text-anchor="end">
            {sheets}
          </text>
        </g>
      ))}
      <path class="used" d={shape.used} />
      <path class="usedline" d={shape.usedLine} />
      <path class="rays" d={shape.strokes} />
      <path class="mid" d={shape.likeliest} />
      <path class="truth" d={`M${box.leftPx} ${truthPx}H${box.rightPx}`} />
      {view.summary.warnedAtMs !== null && (
        <path class="advised" d={`M${shape.x(view.summary.warnedAtMs)} ${topPx - 4}V${box.bottomPx}`} />
      )}
      {view.rollChangesAtMs.map((atMs) => (
        <g key={atMs} transform={`translate(${shape.x(atMs)} ${box.bottomPx})`}>
          <circle class="fitted" r="5" />
          <circle r="1.7" />
        </g>
      ))}
      {above.map((each) => (
        <text key={each.text} class={each.tone} x={each.xPx} y={topPx - 8} text-anchor={each.anchor}>
          {each.text}
        </text>
      ))}
      {placeLabels(hoursOf(view, shape.x, format), textPx, widthPx).map((each) => (
        <text key={each.text} x={each.xPx} y={box.bottomPx + textPx + 5} text-anchor={each.anchor}>
          {each.text}
        </text>
      ))}
    </svg>
  );
}

function marksOf(
  { summary, sheetsUsed, closeAtMs }: ReplayView,
  x: (atMs: number) => number,
  format: Format,
): Label[] {
  const total = words.total(format.count(sheetsUsed));
  const labels: Label[] = [{ text: total, xPx: x(closeAtMs), anchor: "end", tone: "b" }];
  if (summary.warnedAtMs === null) return labels;
  const text = `${words.warned} ${format.clock(summary.warnedAtMs)}`;
  return [...labels, { text, xPx: x(summary.warnedAtMs), anchor: "middle", tone: "plan" }];
}

function hoursOf(view: ReplayView, x: (atMs: number) => number, format: Format): Label[] {
  const labels: Label[] = [];
  for (let atMs = Math.ceil(view.openAtMs / hourMs) * hourMs; atMs <= view.closeAtMs; atMs += hourMs)
    labels.push({ text: format.hour(atMs), xPx: x(atMs), anchor: "middle" });
  return labels;
}
