import { openingViews, type BoothFrame } from "./boothFrame.ts";
import { firstOf, refuse, whyNotBearing, whyNotSize, whyNotWithin, type WhyNot } from "./whyNot.ts";
import { whyNotShape } from "./whyNotSite.ts";

/** Measuring by hand: a place this far outside the walls still counts as on them. */
const handM = 0.1;

/** Why a booth's frame cannot be used for the sun: the first figure that cannot be, or null when all can. */
export function whyNotFrame(frame: BoothFrame): WhyNot | null {
  return (
    whyNotBearing("headingDeg", frame.headingDeg) ??
    firstOf(["widthM", "lengthM", "heightM"] as const, (key) => whyNotSize(key, frame[key])) ??
    (frame.openings.length === 0 ? refuse("openings", 0, "noOpening") : null) ??
    firstOf(frame.openings.keys(), (index) => whyNotOpening(frame, index)) ??
    whyNotInside("printer", frame.printer, frame) ??
    whyNotHeight("printer.heightM", frame.printer.heightM, frame) ??
    whyNotBehind(frame)
  );
}

function whyNotOpening(frame: BoothFrame, index: number): WhyNot | null {
  const opening = frame.openings[index];
  if (opening === undefined) return null;
  const at = `openings[${String(index)}]`;
  const wallM = wallWidthM(frame, opening.bearingDeg);
  return (
    whyNotShape(at, opening) ??
    whyNotWithin(`${at}.widthM`, opening.widthM, [0, wallM + handM], "widerThanTrailer") ??
    whyNotHeight(`${at}.heightM`, opening.sillM + opening.heightM, frame) ??
    whyNotInside(at, opening, frame)
  );
}

/** How wide the wall is that looks along a bearing: the trailer's extent across that direction. */
function wallWidthM({ widthM, lengthM }: BoothFrame, bearingDeg: number): number {
  const bearing = (bearingDeg * Math.PI) / 180;
  return Math.abs(Math.cos(bearing)) * widthM + Math.abs(Math.sin(bearing)) * lengthM;
}

function whyNotInside(
  at: string,
  { xM, yM }: { readonly xM: number; readonly yM: number },
  frame: BoothFrame,
): WhyNot | null {
  return (
    whyNotWithin(`${at}.xM`, xM, [-handM, frame.widthM + handM], "outsideTrailer") ??
    whyNotWithin(`${at}.yM`, yM, [-handM, frame.lengthM + handM], "outsideTrailer")
  );
}

function whyNotHeight(field: string, topM: number, { heightM }: BoothFrame): WhyNot | null {
  return whyNotWithin(field, topM, [0, heightM + handM], "higherThanTrailer");
}

function whyNotBehind(frame: BoothFrame): WhyNot | null {
  return firstOf(openingViews(frame).entries(), ([index, { printer }]) =>
    printer === null || printer.depthM > 0
      ? null
      : refuse(`openings[${String(index)}]`, printer.depthM, "printerNotBehindOpening", 0),
  );
}
