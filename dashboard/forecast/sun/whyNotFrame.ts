import type { BoothFrame, HorizonPoint, Opening, SunSite } from "./boothFrame.ts";
import { openingViews } from "./boothFrame.ts";

/** Why a figure cannot be: in words of code, the page speaks them. */
export type FrameRefusal =
  | "notANumber"
  | "notABearing"
  | "latitudeOutOfRange"
  | "longitudeOutOfRange"
  | "horizonOutOfRange"
  | "sizeOutOfRange"
  | "widerThanTrailer"
  | "higherThanTrailer"
  | "outsideTrailer"
  | "printerNotBehindOpening"
  | "noOpening";

/** The figure that is refused: where it stands, what it is, and the limit it breaks where there is one. */
export type WhyNot = {
  readonly field: string;
  readonly value: number;
  readonly why: FrameRefusal;
  readonly limit: number | null;
};

/** No trailer, hatch or awning is larger; a figure above this was typed in feet, inches or centimetres. */
const largestM = 20;

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

/** Why a site cannot be used for the sun, or null when it can. */
export function whyNotSite(site: SunSite): WhyNot | null {
  return (
    whyNotWithin("latitudeDeg", site.latitudeDeg, [-90, 90], "latitudeOutOfRange") ??
    whyNotWithin("longitudeDeg", site.longitudeDeg, [-180, 180], "longitudeOutOfRange") ??
    firstOf(site.horizon.entries(), ([index, point]) => whyNotHorizon(index, point))
  );
}

/**
 * Why a typed bearing is none: it must lie from -180 to 360. One of 725 is refused and not wound round to 5, because
 * a slip of the finger is likelier than two turns.
 */
export function whyNotBearing(field: string, deg: number): WhyNot | null {
  return whyNotWithin(field, deg, [-180, 360], "notABearing");
}

function whyNotOpening(frame: BoothFrame, index: number): WhyNot | null {
  const opening = frame.openings[index];
  if (opening === undefined) return null;
  const at = `openings[${String(index)}]`;
  const wallM = wallWidthM(frame, opening.bearingDeg);
  return (
    whyNotBearing(`${at}.bearingDeg`, opening.bearingDeg) ??
    firstOf(["widthM", "heightM"] as const, (key) => whyNotSize(`${at}.${key}`, opening[key])) ??
    whyNotWithin(`${at}.widthM`, opening.widthM, [0, wallM + handM], "widerThanTrailer") ??
    whyNotWithin(`${at}.sillM`, opening.sillM, [0, largestM], "sizeOutOfRange") ??
    whyNotHeight(`${at}.heightM`, opening.sillM + opening.heightM, frame) ??
    whyNotInside(at, opening, frame) ??
    whyNotOverhang(at, opening)
  );
}

/** How wide the wall is that looks along a bearing: the trailer's extent across that direction. */
function wallWidthM({ widthM, lengthM }: BoothFrame, bearingDeg: number): number {
  const bearing = (bearingDeg * Math.PI) / 180;
  return Math.abs(Math.cos(bearing)) * widthM + Math.abs(Math.sin(bearing)) * lengthM;
}

function whyNotOverhang(at: string, { overhang }: Opening): WhyNot | null {
  if (overhang === null) return null;
  return firstOf(["depthM", "heightM"] as const, (key) =>
    whyNotWithin(`${at}.overhang.${key}`, overhang[key], [0, largestM], "sizeOutOfRange"),
  );
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

function whyNotHorizon(index: number, { azimuthDeg, elevationDeg }: HorizonPoint): WhyNot | null {
  const at = `horizon[${String(index)}]`;
  return (
    whyNotBearing(`${at}.azimuthDeg`, azimuthDeg) ??
    whyNotWithin(`${at}.elevationDeg`, elevationDeg, [-90, 90], "horizonOutOfRange")
  );
}

function whyNotSize(field: string, sizeM: number): WhyNot | null {
  if (sizeM <= 0) return refuse(field, sizeM, "sizeOutOfRange", 0);
  return whyNotWithin(field, sizeM, [0, largestM], "sizeOutOfRange");
}

function whyNotWithin(
  field: string,
  value: number,
  [low, high]: readonly [number, number],
  why: FrameRefusal,
): WhyNot | null {
  if (!Number.isFinite(value)) return refuse(field, value, "notANumber");
  if (value < low) return refuse(field, value, why, low);
  return value > high ? refuse(field, value, why, high) : null;
}

function refuse(field: string, value: number, why: FrameRefusal, limit: number | null = null): WhyNot {
  return { field, value, why, limit };
}

function firstOf<Each>(all: Iterable<Each>, whyNot: (each: Each) => WhyNot | null): WhyNot | null {
  for (const each of all) {
    const refused = whyNot(each);
    if (refused !== null) return refused;
  }
  return null;
}
