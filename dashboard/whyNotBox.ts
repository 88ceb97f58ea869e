import type { BoothBox } from "@boothward/shared-types";
import type { FrameRefusal } from "./forecast/sun/whyNot.ts";
import { whyNotFrame } from "./forecast/sun/whyNotFrame.ts";

const sentences: Readonly<Record<FrameRefusal, string>> = {
  notANumber: "is no number",
  notABearing: "is no bearing: it lies from -180 to 360 degrees",
  latitudeOutOfRange: "is no latitude",
  longitudeOutOfRange: "is no longitude",
  horizonOutOfRange: "is no height of a horizon",
  sizeOutOfRange: "is no size of a trailer, in metres",
  widerThanTrailer: "is wider than the wall it is in",
  higherThanTrailer: "is higher than the trailer",
  outsideTrailer: "lies outside the trailer",
  printerNotBehindOpening: "looks away from the printer: its bearing or its place is wrong",
  noOpening: "are none: without an opening no sun comes in",
};

/** What about a booth's walls, openings and printer cannot be, with the field and a sentence; null: nothing. */
export function whyNotBox(box: BoothBox): { readonly field: string; readonly sentence: string } | null {
  const refused = whyNotFrame({ ...box, headingDeg: 0 });
  if (refused === null) return null;
  const { field, value, why } = refused;
  return { field, sentence: `box.${field}: ${String(value)} ${sentences[why]}.` };
}
