import type { HorizonPoint, OpeningView, SunSite } from "./boothFrame.ts";
import {
  firstOf,
  refuse,
  whyNotBearing,
  whyNotLength,
  whyNotSize,
  whyNotWithin,
  type WhyNot,
} from "./whyNot.ts";

/** Why a site cannot be used for the sun, or null when it can. */
export function whyNotSite(site: SunSite): WhyNot | null {
  return (
    whyNotWithin("latitudeDeg", site.latitudeDeg, [-90, 90], "latitudeOutOfRange") ??
    whyNotWithin("longitudeDeg", site.longitudeDeg, [-180, 180], "longitudeOutOfRange") ??
    firstOf(site.horizon.entries(), ([index, point]) => whyNotHorizon(index, point))
  );
}

/** Why openings with the printer's place measured from them cannot be used for the sun, or null when they can. */
export function whyNotViews(views: readonly OpeningView[]): WhyNot | null {
  return firstOf(views.entries(), ([index, view]) => {
    const at = `openings[${String(index)}]`;
    return whyNotShape(at, view) ?? whyNotPlace(at, view.printer);
  });
}

/** Why an opening's own figures cannot be, wherever it is built in. */
export function whyNotShape(
  at: string,
  opening: Pick<OpeningView, "bearingDeg" | "widthM" | "heightM" | "sillM" | "overhang">,
): WhyNot | null {
  const { overhang } = opening;
  return (
    whyNotBearing(`${at}.bearingDeg`, opening.bearingDeg) ??
    firstOf(["widthM", "heightM"] as const, (key) => whyNotSize(`${at}.${key}`, opening[key])) ??
    whyNotLength(`${at}.sillM`, opening.sillM) ??
    (overhang === null
      ? null
      : firstOf(["depthM", "heightM"] as const, (key) =>
          whyNotLength(`${at}.overhang.${key}`, overhang[key]),
        ))
  );
}

function whyNotPlace(at: string, printer: OpeningView["printer"]): WhyNot | null {
  if (printer === null) return null;
  const { depthM, rightM, heightM } = printer;
  return (
    whyNotLength(`${at}.printer.depthM`, depthM) ??
    (depthM > 0 ? null : refuse(`${at}.printer.depthM`, depthM, "printerNotBehindOpening", 0)) ??
    whyNotLength(`${at}.printer.rightM`, Math.abs(rightM)) ??
    whyNotLength(`${at}.printer.heightM`, heightM)
  );
}

function whyNotHorizon(index: number, { azimuthDeg, elevationDeg }: HorizonPoint): WhyNot | null {
  const at = `horizon[${String(index)}]`;
  return (
    whyNotBearing(`${at}.azimuthDeg`, azimuthDeg) ??
    whyNotWithin(`${at}.elevationDeg`, elevationDeg, [-90, 90], "horizonOutOfRange")
  );
}
