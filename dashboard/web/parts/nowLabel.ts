import { strip as words } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import type { Label } from "./placeLabels.ts";
import type { StripInput, StripShape } from "./stripShape.ts";

/** What stands below the present: since when the printer stands still, when a silent booth was heard, or "now". */
export function nowLabel(input: StripInput, shape: StripShape, format: Format, isOld: boolean): Label | null {
  if (isOld) {
    const at = words.last(format.clock(input.knownAtMs));
    return { text: at, xPx: shape.x(input.knownAtMs), anchor: "middle" };
  }
  if (shape.stop !== null && input.stoppedAtMs !== null) {
    const say = shape.stop.isOut ? words.out : words.stopped;
    return {
      text: say(format.clock(input.stoppedAtMs)),
      xPx: shape.stop.fromPx,
      anchor: "middle",
      tone: "soon",
    };
  }
  return shape.nowPx === null ? null : { text: words.now, xPx: shape.nowPx, anchor: "middle" };
}
