import { strip as words } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import { nowLabel } from "./nowLabel.ts";
import type { Label } from "./placeLabels.ts";
import type { StripInput, StripShape } from "./stripShape.ts";

const hourMs = 3_600_000;

/** What stands above the large picture, the most needed first: the close, the advised change, roll changes. */
export function aboveLabels(
  input: StripInput,
  shape: StripShape,
  format: Format,
  changesAtMs: readonly number[],
): Label[] {
  const clock = (atMs: number) => words.clock(format.clock(atMs));
  const labels: Label[] = [];
  if (input.closeAtMs !== null && shape.closePx !== null)
    labels.push({
      text: words.close(clock(input.closeAtMs)),
      xPx: shape.closePx + 4,
      anchor: "end",
      tone: "b",
    });
  if (input.changeAtMs !== null)
    labels.push({
      text: words.change(clock(input.changeAtMs)),
      xPx: shape.x(input.changeAtMs) - 9,
      anchor: "end",
      tone: "plan",
    });
  for (const atMs of changesAtMs.toReversed())
    if (atMs >= input.openAtMs && atMs <= input.toAtMs)
      labels.push({ text: words.roll(clock(atMs)), xPx: shape.x(atMs) + 9, anchor: "start" });
  return labels;
}

/** What stands below it: when the roll ends, now or the stop, the hours. */
export function belowLabels(input: StripInput, shape: StripShape, format: Format, isOld: boolean): Label[] {
  const labels: Label[] = [];
  const end = emptyLabel(input, shape, format);
  if (end !== null) labels.push(end);
  const now = nowLabel(input, shape, format, isOld);
  if (now !== null) labels.push(isOld ? now : { tone: "b", ...now });
  // The close is named above; an hour at it would say the same once more.
  for (let atMs = Math.ceil(input.fromAtMs / hourMs) * hourMs; atMs < input.toAtMs; atMs += hourMs)
    labels.push({ text: format.hour(atMs), xPx: shape.x(atMs), anchor: "middle" });
  return labels;
}

/** The likeliest end of the roll; where it likely lasts, from when on it may not. */
function emptyLabel(input: StripInput, shape: StripShape, format: Format): Label | null {
  if (shape.empty === null) return null;
  const { p10, p50 } = input.emptyAtMs;
  if (shape.empty.ringPx !== null && p50 !== null)
    return { text: format.clock(p50), xPx: shape.empty.ringPx, anchor: "middle", tone: "soon" };
  if (p10 === null) return null;
  const xPx = (shape.empty.fromPx + shape.empty.toPx) / 2;
  return { text: words.from(format.clock(p10)), xPx, anchor: "middle", tone: "soon" };
}
