import type { OpeningView, SunSite } from "./boothFrame.ts";
import { clearAirShare } from "./clearSky.ts";
import { clearSunAt, passMargin, sunRay, type ClearSun, type SunRay } from "./sunRay.ts";

/**
 * The printer's body stands for a square of points this far apart, so that the beam comes and goes within a minute
 * or two and not at one instant. Our own choice: a dye-sublimation printer is about 0.3 m wide.
 */
const bodyM = [-0.15, 0, 0.15] as const;

/**
 * B(t) of the heat model, 0 to 1: the share of the printer that the sun shines on through any opening, times what a
 * clear sky lets through. A proportion only; how much it heats is learned.
 *
 * Where the printer's place is not known, the share is that of the openings' area which is open towards the sun.
 */
export function beamFraction(views: readonly OpeningView[], site: SunSite, atMs: number): number {
  const sun = clearSunAt(site, atMs);
  if (sun.clearDeg <= 0) return 0;
  const placed = views.filter((view) => view.printer !== null);
  const share = placed.length > 0 ? litShare(placed, sun) : openShare(views, sun);
  return share * clearAirShare(sun.elevationDeg);
}

/** Share of the points of the printer's body which the sun reaches through one of the openings. */
function litShare(views: readonly OpeningView[], sun: ClearSun): number {
  const rays = views.map((view) => sunRay(sun, view.bearingDeg));
  const points = bodyM.flatMap((asideM) => bodyM.map((aboveM) => ({ asideM, aboveM })));
  const isLit = ({ asideM, aboveM }: { asideM: number; aboveM: number }) =>
    views.some((view, index) => passMargin(moved(view, asideM, aboveM), rays[index] ?? noRay) > 0);
  return points.filter(isLit).length / points.length;
}

const noRay: SunRay = { out: 0, right: 0, up: 0 };

function moved(view: OpeningView, asideM: number, aboveM: number): OpeningView {
  const { printer } = view;
  if (printer === null) return view;
  return {
    ...view,
    printer: { ...printer, rightM: printer.rightM + asideM, heightM: printer.heightM + aboveM },
  };
}

/** Of all openings together: the area the beam comes through, seen from the sun, over their whole area. */
function openShare(views: readonly OpeningView[], sun: ClearSun): number {
  const areaM2 = views.reduce((sum, { widthM, heightM }) => sum + widthM * heightM, 0);
  if (areaM2 === 0) return 0;
  const throughM2 = views.reduce((sum, view) => sum + view.widthM * beamHeightM(view, sun), 0);
  return throughM2 / areaM2;
}

function beamHeightM({ bearingDeg, sillM, heightM, overhang }: OpeningView, sun: ClearSun): number {
  const { out, up } = sunRay(sun, bearingDeg);
  if (out <= 0) return 0;
  const shadedFromM = overhang === null ? Infinity : overhang.heightM - (overhang.depthM * up) / out;
  return out * Math.max(0, Math.min(sillM + heightM, shadedFromM) - sillM);
}
