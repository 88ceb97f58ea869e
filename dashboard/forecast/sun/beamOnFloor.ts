import { bearingOf } from "./bearing.ts";
import type { BoothFrame, Opening, SunSite } from "./boothFrame.ts";
import { clearSunAt, sunRay, type SunRay } from "./sunRay.ts";

/** A point of the floor in the booth's frame. */
export type FloorPoint = { readonly xM: number; readonly yM: number };

/** The patch of sun that one opening lets onto the floor, its corners in order round it. */
export type FloorBeam = { readonly opening: number; readonly corners: readonly FloorPoint[] };

/** Where the sun lies on the floor at an instant, a patch for each opening it comes through; for the plan view. */
export function beamOnFloor(frame: BoothFrame, site: SunSite, atMs: number): readonly FloorBeam[] {
  const sun = clearSunAt(site, atMs);
  if (sun.clearDeg <= 0) return [];
  return frame.openings.flatMap((opening, index) => {
    const ray = sunRay(sun, bearingOf(frame.headingDeg + opening.bearingDeg));
    const corners = clippedTo(frame, patchOf(opening, ray));
    return corners.length < 3 ? [] : [{ opening: index, corners }];
  });
}

/** The lit part of an opening thrown onto the floor along the ray; none when the sun is behind its wall. */
function patchOf(opening: Opening, ray: SunRay): readonly FloorPoint[] {
  const { sillM, overhang } = opening;
  if (ray.out <= 0) return [];
  const shadedFromM = overhang === null ? Infinity : overhang.heightM - (overhang.depthM * ray.up) / ray.out;
  const topM = Math.min(sillM + opening.heightM, shadedFromM);
  if (topM <= sillM) return [];
  const half = opening.widthM / 2;
  return [
    thrown(opening, ray, -half, sillM),
    thrown(opening, ray, half, sillM),
    thrown(opening, ray, half, topM),
    thrown(opening, ray, -half, topM),
  ];
}

function thrown({ xM, yM, bearingDeg }: Opening, ray: SunRay, asideM: number, aboveM: number): FloorPoint {
  const bearing = (bearingDeg * Math.PI) / 180;
  const [outX, outY] = [Math.sin(bearing), Math.cos(bearing)];
  const inwardM = (aboveM * ray.out) / ray.up;
  const rightM = asideM - (aboveM * ray.right) / ray.up;
  return { xM: xM + rightM * outY - inwardM * outX, yM: yM - rightM * outX - inwardM * outY };
}

/** Cuts a convex patch to the floor, wall by wall (Sutherland and Hodgman 1974). */
function clippedTo({ widthM, lengthM }: BoothFrame, patch: readonly FloorPoint[]): readonly FloorPoint[] {
  const insides: readonly ((point: FloorPoint) => number)[] = [
    ({ xM }) => xM,
    ({ xM }) => widthM - xM,
    ({ yM }) => yM,
    ({ yM }) => lengthM - yM,
  ];
  return insides.reduce(cutAlong, patch);
}

function cutAlong(
  patch: readonly FloorPoint[],
  inside: (point: FloorPoint) => number,
): readonly FloorPoint[] {
  return patch.flatMap((point, index) => {
    const next = patch[(index + 1) % patch.length] ?? point;
    const [here, there] = [inside(point), inside(next)];
    const kept = here >= 0 ? [point] : [];
    if (here >= 0 === there >= 0) return kept;
    const share = here / (here - there);
    const cut = {
      xM: point.xM + share * (next.xM - point.xM),
      yM: point.yM + share * (next.yM - point.yM),
    };
    return [...kept, cut];
  });
}
