import type { BoothView } from "@boothward/shared-types/view";
import type { Format } from "../../alerts/format.ts";
import { heatAheadText } from "./heatAheadText.ts";

/** The next hour at the printer as a sentence. */
export function HeatAhead({ booth, nowMs, format }: { booth: BoothView; nowMs: number; format: Format }) {
  const text = heatAheadText(booth, nowMs, format);
  return text === "" ? null : <p>{text}</p>;
}
