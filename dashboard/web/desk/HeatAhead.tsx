import type { BoothView } from "@boothward/shared-types/view";
import type { Format } from "../../alerts/format.ts";
import { heatAheadText } from "./heatAheadText.ts";
import { printerAheadText } from "./printerAheadText.ts";

/** The next hour at the printer as sentences: its temperature, its own pace, what letting it cool would cost. */
export function HeatAhead({ booth, nowMs, format }: { booth: BoothView; nowMs: number; format: Format }) {
  const texts = [heatAheadText(booth, nowMs, format), printerAheadText(booth, nowMs, format)];
  return texts.map((text) => text !== "" && <p key={text}>{text}</p>);
}
