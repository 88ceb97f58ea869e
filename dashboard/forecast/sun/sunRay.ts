import { horizonAt } from "./horizon.ts";
import type { OpeningView, SunSite } from "./boothFrame.ts";
import { sunAt, type SunPosition } from "./sunPosition.ts";

/** The unit vector to the sun as an opening sees it: out of its plane, to the right looking out, up. */
export type SunRay = { readonly out: number; readonly right: number; readonly up: number };

/** The sun at an instant and how far it stands clear of ground and horizon, degrees; not clear is below zero. */
export type ClearSun = SunPosition & { readonly clearDeg: number };

export function clearSunAt(site: SunSite, atMs: number): ClearSun {
  const sun = sunAt(site, atMs);
  const heldBackDeg = Math.max(0, horizonAt(site.horizon, sun.azimuthDeg));
  return { ...sun, clearDeg: sun.elevationDeg - heldBackDeg };
}

/** The unit vector to the sun over level ground: east, north, up. */
export type SunDirection = { readonly east: number; readonly north: number; readonly up: number };

export function sunDirection({
  azimuthDeg,
  elevationDeg,
}: Pick<SunPosition, "azimuthDeg" | "elevationDeg">): SunDirection {
  const azimuth = (azimuthDeg * Math.PI) / 180;
  const elevation = (elevationDeg * Math.PI) / 180;
  const level = Math.cos(elevation);
  return { east: level * Math.sin(azimuth), north: level * Math.cos(azimuth), up: Math.sin(elevation) };
}

/** The direction of the sun in the frame of a wall; `out` is the cosine of the angle of incidence on it. */
export function sunRay(sun: Pick<SunPosition, "azimuthDeg" | "elevationDeg">, bearingDeg: number): SunRay {
  return rayOnto(wallOf(bearingDeg), sunDirection(sun));
}

/** A wall's outward direction, so that many rays can be turned onto one wall without angles. */
export type Wall = { readonly outEast: number; readonly outNorth: number };

export function wallOf(bearingDeg: number): Wall {
  const bearing = (bearingDeg * Math.PI) / 180;
  return { outEast: Math.sin(bearing), outNorth: Math.cos(bearing) };
}

export function rayOnto({ outEast, outNorth }: Wall, { east, north, up }: SunDirection): SunRay {
  return { out: east * outEast + north * outNorth, right: east * outNorth - north * outEast, up };
}

/**
 * How far inside an opening the line from the printer to the sun passes: above zero when the sun shines on the
 * printer through it, below zero when it does not.
 *
 * The test in lengths is |u| <= w/2, sill <= z <= top and, under an overhang of depth D at height zo, z + D k <= zo,
 * where u = x + d tan g and z = zP + d k. Here each side is multiplied by the ray's `out`, so that all of them stay
 * finite and continuous when the sun passes along the wall or overhead, as root finding needs.
 */
export function passMargin(view: OpeningView, { out, right, up }: SunRay): number {
  const { printer, overhang } = view;
  if (printer === null) return -1;
  const { depthM, rightM, heightM } = printer;
  const besideM = (view.widthM / 2) * out - Math.abs(rightM * out + depthM * right);
  const overSillM = (heightM - view.sillM) * out + depthM * up;
  const underTopM = (view.sillM + view.heightM - heightM) * out - depthM * up;
  const inside = Math.min(besideM, overSillM, underTopM);
  if (overhang === null) return inside;
  return Math.min(inside, (overhang.heightM - heightM) * out - (depthM + overhang.depthM) * up);
}
