import { strip as words } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import { Fitted } from "./Fitted.tsx";
import type { Room } from "./Fitted.tsx";
import { nowLabel } from "./nowLabel.ts";
import { placeLabels } from "./placeLabels.ts";
import type { Label } from "./placeLabels.ts";
import { StripDrawing } from "./StripDrawing.tsx";
import type { StripInput, StripShape } from "./stripShape.ts";
import { stripShape } from "./stripShape.ts";

const heightPx = { card: 46, row: 74 };

type StripProps = {
  input: StripInput;
  size: "card" | "row";
  isOld: boolean;
  format: Format;
  label: string;
};

/** The evening of one booth as a strip of paper: on a card with its times below, on the wide table without. */
export function Strip(props: StripProps) {
  return <Fitted>{(room) => <StripIn {...props} {...room} />}</Fitted>;
}

function StripIn(props: StripProps & Room) {
  const { input, size, widthPx, textPx } = props;
  const box = { leftPx: 0, rightPx: widthPx - 2, topPx: 0, bottomPx: heightPx[size], strokePx: 3.1 };
  const shape = stripShape(input, box);
  const isRow = size === "row";
  const labels = isRow ? [] : placeLabels(cardLabels(input, shape, props), textPx, widthPx);
  const textAtPx = box.bottomPx + textPx + 3;
  return (
    <svg
      class={`strip ${props.isOld ? "old" : ""}`}
      viewBox={`0 0 ${widthPx} ${isRow ? box.bottomPx : textAtPx + 4}`}
      width={widthPx}
      height={isRow ? box.bottomPx : textAtPx + 4}
      role="img"
      aria-label={props.label}
    >
      <StripDrawing shape={shape} box={box} overPx={isRow ? 400 : 3} />
      {labels.map((label) => (
        <text key={label.text} class={label.tone} x={label.xPx} y={textAtPx} text-anchor={label.anchor}>
          {label.text}
        </text>
      ))}
    </svg>
  );
}

function cardLabels(
  input: StripInput,
  shape: StripShape,
  props: { isOld: boolean; format: Format },
): Label[] {
  const { format } = props;
  const clock = (atMs: number) => words.clock(format.clock(atMs));
  const labels: Label[] = [];
  if (input.closeAtMs !== null && shape.closePx !== null)
    labels.push({ text: clock(input.closeAtMs), xPx: shape.closePx, anchor: "end", tone: "b" });
  const now = nowLabel(input, shape, format, props.isOld);
  if (now !== null && shape.stop !== null) labels.push(now);
  if (shape.empty?.ringPx != null && input.emptyAtMs.p50 !== null)
    labels.push({
      text: clock(input.emptyAtMs.p50),
      xPx: shape.empty.ringPx,
      anchor: "middle",
      tone: "soon",
    });
  if (now !== null && shape.stop === null) labels.push(now);
  labels.push({ text: clock(input.openAtMs), xPx: 0, anchor: "start" });
  return labels;
}
