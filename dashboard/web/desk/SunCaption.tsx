import type { SunStretch } from "@boothward/shared-types/site";
import { sunWords as words } from "../words/en/heatAhead.ts";
import { listed } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** What the band of sun above the evening says. */
export function SunCaption({ sun, format }: { sun: readonly SunStretch[]; format: Format }) {
  const times = sun.map(({ fromAtMs, toAtMs }) =>
    words.sunFromTo(format.clock(fromAtMs), format.clock(toAtMs)),
  );
  return <>{` ${times.length === 0 ? words.noSun : words.sunBand(listed(times))}`}</>;
}
