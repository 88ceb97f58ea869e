import type { SunStretch } from "@boothward/shared-types/site";
import type { Format } from "../../alerts/format.ts";
import { isSunAllDay } from "../parts/isSunAllDay.ts";
import { sunWords as words } from "../words/en/heatAhead.ts";
import { listed } from "../words/en/today.ts";

/** What the band of sun above the evening says. */
export function SunCaption({ sun, format }: { sun: readonly SunStretch[]; format: Format }) {
  return <>{` ${captionOf(sun, format)}`}</>;
}

export function captionOf(sun: readonly SunStretch[], format: Pick<Format, "clock">): string {
  if (sun.length === 0) return words.noSun;
  if (isSunAllDay(sun)) return words.sunAlways;
  return words.sunBand(
    listed(sun.map(({ fromAtMs, toAtMs }) => words.sunFromTo(format.clock(fromAtMs), format.clock(toAtMs)))),
  );
}
