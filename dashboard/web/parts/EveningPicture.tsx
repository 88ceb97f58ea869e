import { strip as words } from "../words/en/today.ts";
import type { Format } from "../words/format.ts";
import { Fitted } from "./Fitted.tsx";
import type { Room } from "./Fitted.tsx";
import { placeLabels } from "./placeLabels.ts";
import type { Label } from "./placeLabels.ts";
import { StripDrawing } from "./StripDrawing.tsx";
import type { StripInput, StripShape } from "./stripShape.ts";
import { stripShape } from "./stripShape.ts";

const hourMs = 3_600_000;
const heightPx = { narrow: 190, wide: 250 };
const topPx = 28;

type EveningProps = {
  input: StripInput;
  changesAtMs: readonly number[];
  isOld: boolean;
  format: Format;
  label: string;
};

/** A booth's evening in large: sheets left with an axis, roll changes, the fan, where the roll ends, the close. */
export function EveningPicture(props: EveningProps) {
  return <Fitted>{(room) => <EveningIn {...props} {...room} />}</Fitted>;
}

function EveningIn(props: EveningProps & Room) {
  const { input, format, widthPx, textPx } = props;
  const leftPx = textPx * 2.6;
  const bottomPx = topPx + (widthPx > 500 ? heightPx.wide : heightPx.narrow);
  const box = { leftPx, rightPx: widthPx - 8, topPx, bottomPx, strokePx: widthPx > 500 ? 4.2 : 3.6 };
  const shape = stripShape(input, box);
  const grid = gridSteps(input.kitSheets);
  const below = placeLabels(belowLabels(input, shape, format, props.isOld), textPx, widthPx);
  const above = placeLabels(aboveLabels(input, shape, format, props.changesAtMs), textPx, widthPx);
  return (
    <svg
      class={`strip ${props.isOld ? "old" : ""}`}
      viewBox={`0 0 ${widthPx} ${bottomPx + textPx * 2}`}
      width={widthPx}
      height={bottomPx + textPx * 2}
      role="img"
      aria-label={props.label}
    >
      <StripDrawing shape={shape} box={box} overPx={4}>
        {grid.map((sheets) => (
          <g key={sheets}>
            <path class="grid" d={`M${leftPx} ${shape.y(sheets)}H${box.rightPx}`} />
            <text x={leftPx - 6} y={shape.y(sheets) + 4} text-anchor="end">
              {sheets}
            </text>
          </g>
        ))}
      </StripDrawing>
      {props.changesAtMs.filter(within(input)).map((atMs) => (
        <g key={atMs} transform={`translate(${shape.x(atMs)} ${topPx - 10})`}>
          <circle class="fitted" r="5" />
          <circle r="1.7" />
        </g>
      ))}
      {above.map((label) => (
        <Text key={label.text} label={label} yPx={topPx - 6} />
      ))}
      {below.map((label) => (
        <Text key={label.text} label={label} yPx={bottomPx + textPx + 5} />
      ))}
    </svg>
  );
}

function Text({ label, yPx }: { label: Label; yPx: number }) {
  return (
    <text class={label.tone} x={label.xPx} y={yPx} text-anchor={label.anchor}>
      {label.text}
    </text>
  );
}

/** About three lines, at round numbers, up to a full kit. */
function gridSteps(kitSheets: number): number[] {
  const step = kitSheets > 450 ? 200 : kitSheets > 180 ? 100 : 50;
  return Array.from({ length: Math.floor(kitSheets / step) }, (_, i) => (i + 1) * step);
}

const within = (input: StripInput) => (atMs: number) => atMs >= input.openAtMs && atMs <= input.toAtMs;

function aboveLabels(
  input: StripInput,
  shape: StripShape,
  format: Format,
  changesAtMs: readonly number[],
): Label[] {
  const close: Label[] =
    input.closeAtMs === null || shape.closePx === null
      ? []
      : [
          {
            text: words.close(words.clock(format.clock(input.closeAtMs))),
            xPx: shape.closePx + 4,
            anchor: "end",
            tone: "b",
          },
        ];
  return [
    ...close,
    ...changesAtMs.filter(within(input)).map((atMs): Label => ({
      text: words.roll(format.clock(atMs)),
      xPx: shape.x(atMs) + 9,
      anchor: "start",
    })),
  ];
}

function belowLabels(input: StripInput, shape: StripShape, format: Format, isOld: boolean): Label[] {
  const labels: Label[] = [];
  if (shape.empty?.ringPx != null && input.emptyAtMs.p50 !== null)
    labels.push({
      text: format.clock(input.emptyAtMs.p50),
      xPx: shape.empty.ringPx,
      anchor: "middle",
      tone: "soon",
    });
  if (isOld)
    labels.push({
      text: words.last(format.clock(input.knownAtMs)),
      xPx: shape.x(input.knownAtMs),
      anchor: "middle",
    });
  else if (shape.nowPx !== null)
    labels.push({ text: words.now, xPx: shape.nowPx, anchor: "middle", tone: "b" });
  // The close is named above; an hour at it would say the same once more.
  for (let atMs = Math.ceil(input.fromAtMs / hourMs) * hourMs; atMs < input.toAtMs; atMs += hourMs)
    labels.push({ text: format.hour(atMs), xPx: shape.x(atMs), anchor: "middle" });
  return labels;
}
