import { Equator, Horizon, Observer } from "astronomy-engine";
import type { OpeningView, SunSite } from "../../dashboard/forecast/sun/boothFrame.ts";

/** The sun by an almanac that shares nothing with ours (astronomy-engine: VSOP87, nutation, parallax, refraction). */
export function almanacSun(
  place: { latitudeDeg: number; longitudeDeg: number },
  atMs: number,
  refraction: "normal" | null = "normal",
): { azimuthDeg: number; elevationDeg: number } {
  const observer = new Observer(place.latitudeDeg, place.longitudeDeg, 0);
  const when = new Date(atMs);
  const { ra, dec } = Equator("Sun" as Parameters<typeof Equator>[0], when, observer, true, true);
  const { azimuth, altitude } = Horizon(when, observer, ra, dec, refraction ?? undefined);
  return { azimuthDeg: azimuth, elevationDeg: altitude };
}

/**
 * Whether the sun is on the printer, by that almanac and by the test in lengths: u = x + d tan g and z = zP + d k with
 * k = tan(elevation) / cos g; |u| <= w/2, sill <= z <= sill + h, under an overhang also z + D k <= zo. The horizon is
 * level at the elevation of the site's first point. `raisedDeg` puts the sun that much higher than the almanac does.
 */
export function isLitByAlmanac(view: OpeningView, site: SunSite, atMs: number, raisedDeg = 0): boolean {
  const { azimuthDeg, elevationDeg: almanacDeg } = almanacSun(site, atMs);
  const elevationDeg = almanacDeg + raisedDeg;
  const rad = Math.PI / 180;
  const g = (azimuthDeg - view.bearingDeg) * rad;
  const { printer, overhang } = view;
  if (printer === null || elevationDeg <= 0 || Math.cos(g) <= 0) return false;
  if (elevationDeg < (site.horizon[0]?.elevationDeg ?? 0)) return false;
  const u = printer.rightM + printer.depthM * Math.tan(g);
  const k = Math.tan(elevationDeg * rad) / Math.cos(g);
  const z = printer.heightM + printer.depthM * k;
  const isThrough = Math.abs(u) <= view.widthM / 2 && z >= view.sillM && z <= view.sillM + view.heightM;
  return isThrough && (overhang === null || z + overhang.depthM * k <= overhang.heightM);
}
