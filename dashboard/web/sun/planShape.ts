import type { BoothFrame, SunSite } from "../../forecast/sun/boothFrame.ts";
import { sunAt } from "../../forecast/sun/sunPosition.ts";
import type { Stretch } from "../../forecast/sun/findRoot.ts";

export type Point = { xPx: number; yPx: number };

/** Room of the plan: its edge length, the ring of the sun, and how many px a metre of the booth has. */
export type PlanBox = { sizePx: number; rimPx: number; pxPerM: number };

const boothShare = 0.66;

export function planBox(frame: BoothFrame, widthPx: number, textPx: number): PlanBox {
  const sizePx = Math.min(widthPx, 480);
  const rimPx = sizePx / 2 - textPx * 2.4;
  const reachM = Math.hypot(frame.widthM, frame.lengthM) / 2;
  return { sizePx, rimPx, pxPerM: (rimPx * boothShare) / reachM };
}

const round = (px: number): number => Math.round(px * 10) / 10;

/** A place of the booth's frame on the plan, north on top, the middle of the floor in the middle. */
export function placeOn(frame: BoothFrame, box: PlanBox, xM: number, yM: number): Point {
  const heading = (frame.headingDeg * Math.PI) / 180;
  const [right, forward] = [xM - frame.widthM / 2, yM - frame.lengthM / 2];
  const east = right * Math.cos(heading) + forward * Math.sin(heading);
  const north = forward * Math.cos(heading) - right * Math.sin(heading);
  return { xPx: round(box.sizePx / 2 + east * box.pxPerM), yPx: round(box.sizePx / 2 - north * box.pxPerM) };
}

/** A point in the direction of an azimuth, `outPx` from the middle. */
export function pointAt({ sizePx }: PlanBox, azimuthDeg: number, outPx: number): Point {
  const azimuth = (azimuthDeg * Math.PI) / 180;
  return {
    xPx: round(sizePx / 2 + outPx * Math.sin(azimuth)),
    yPx: round(sizePx / 2 - outPx * Math.cos(azimuth)),
  };
}

export function pathOf(points: readonly Point[], isClosed = false): string {
  return points.length === 0
    ? ""
    : `M${points.map(({ xPx, yPx }) => `${xPx} ${yPx}`).join("L")}${isClosed ? "Z" : ""}`;
}

const arcStepMs = 4 * 60_000;

/** The sun's way along the ring within a stretch. */
export function arcPath(site: SunSite, { fromMs, toMs }: Stretch, box: PlanBox): string {
  const count = Math.max(1, Math.ceil((toMs - fromMs) / arcStepMs));
  return pathOf(
    Array.from({ length: count + 1 }, (_, i) => {
      const atMs = fromMs + ((toMs - fromMs) * i) / count;
      return pointAt(box, sunAt(site, atMs).azimuthDeg, box.rimPx);
    }),
  );
}

const hourMs = 3_600_000;

/** The hours along the ring; those that stand free of each other get their label. */
export function hourMarks(
  site: SunSite,
  { fromMs, toMs }: Stretch,
  box: PlanBox,
  textPx: number,
): { atMs: number; dot: Point; label: Point | null }[] {
  const first = Math.ceil(fromMs / hourMs) * hourMs;
  const count = Math.max(0, Math.min(24, Math.floor((toMs - first) / hourMs) + 1));
  const placed: Point[] = [pointAt(box, 0, box.rimPx + textPx * 1.5)];
  return Array.from({ length: count }, (_, i) => {
    const atMs = first + i * hourMs;
    const { azimuthDeg } = sunAt(site, atMs);
    const label = pointAt(box, azimuthDeg, box.rimPx + textPx * 1.5);
    const isFree = placed.every(
      (other) => Math.hypot(other.xPx - label.xPx, other.yPx - label.yPx) > textPx * 3,
    );
    if (isFree) placed.push(label);
    return { atMs, dot: pointAt(box, azimuthDeg, box.rimPx), label: isFree ? label : null };
  });
}

/** An opening on the plan: its two ends, the place of its name, and the edge of its awning. */
export function openingOn(frame: BoothFrame, box: PlanBox, index: number, textPx: number) {
  const opening = frame.openings[index];
  if (opening === undefined) return null;
  const bearing = (opening.bearingDeg * Math.PI) / 180;
  const [outX, outY] = [Math.sin(bearing), Math.cos(bearing)];
  const at = (asideM: number, outM: number) =>
    placeOn(frame, box, opening.xM + asideM * outY + outM * outX, opening.yM - asideM * outX + outM * outY);
  const half = opening.widthM / 2;
  const depthM = opening.overhang?.depthM ?? 0;
  const nameAt = at(0, depthM + (textPx * 0.9) / box.pxPerM);
  const eastward = Math.sin(((opening.bearingDeg + frame.headingDeg) * Math.PI) / 180);
  const anchor =
    Math.abs(eastward) < 0.4 ? ("middle" as const) : eastward > 0 ? ("start" as const) : ("end" as const);
  return {
    ends: [at(-half, 0), at(half, 0)],
    awning: depthM === 0 ? [] : [at(-half, 0), at(-half, depthM), at(half, depthM), at(half, 0)],
    nameAt: { xPx: nameAt.xPx, yPx: nameAt.yPx + textPx * 0.35 },
    anchor,
  };
}
