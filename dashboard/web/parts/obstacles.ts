import type { Standing } from "@boothward/shared-types/site";
import { bearingOf } from "../../forecast/sun/bearing.ts";
import { horizonAt } from "../../forecast/sun/horizon.ts";
import { mostRows } from "./planBody.ts";
import type { Written } from "./readForm.ts";

/** Something that stands before the sky, clockwise from one direction to another, with its height as an angle. */
export type Obstacle = { fromDeg: number; toDeg: number; elevationDeg: number };

type Horizon = Standing["horizon"];

/** Beside an obstacle the horizon falls to the ground within so much. */
const edgeDeg = 1;

/** Two horizons that differ by less are one. */
const sameDeg = 1e-6;

/** The horizon of obstacles on open ground; of two before one another the higher one counts. */
export function horizonOf(obstacles: readonly Obstacle[]): Horizon {
  const edges = obstacles.flatMap(({ fromDeg, toDeg }) => [
    ...[fromDeg - edgeDeg, fromDeg, toDeg, toDeg + edgeDeg],
  ]);
  const azimuths = [...new Set(edges.map(bearingOf))].sort((a, b) => a - b);
  return azimuths.map((azimuthDeg) => ({ azimuthDeg, elevationDeg: highestAt(obstacles, azimuthDeg) }));
}

function highestAt(obstacles: readonly Obstacle[], azimuthDeg: number): number {
  const before = obstacles.filter(
    ({ fromDeg, toDeg }) => bearingOf(azimuthDeg - fromDeg) <= spanOf(fromDeg, toDeg),
  );
  return Math.max(0, ...before.map(({ elevationDeg }) => elevationDeg));
}

/** From 0 to 360 is all round, and not nothing. */
function spanOf(fromDeg: number, toDeg: number): number {
  return toDeg - fromDeg === 360 ? 360 : bearingOf(toDeg - fromDeg);
}

/** The obstacles that a horizon is made of; null: it is another one, measured point by point. */
export function obstaclesOf(horizon: Horizon): Obstacle[] | null {
  const points = horizon
    .map((point) => ({ ...point, azimuthDeg: bearingOf(point.azimuthDeg) }))
    .sort((a, b) => a.azimuthDeg - b.azimuthDeg);
  const obstacles = plateausOf(points);
  return isSameLine(points, horizonOf(obstacles)) ? obstacles : null;
}

/** Stretches of one height above the ground, round through north. */
function plateausOf(points: Horizon): Obstacle[] {
  const start = points.findIndex((point, at) => point.elevationDeg !== points.at(at - 1)?.elevationDeg);
  const [first] = points;
  if (first === undefined) return [];
  if (start < 0)
    return first.elevationDeg > 0 ? [{ fromDeg: 0, toDeg: 360, elevationDeg: first.elevationDeg }] : [];
  const plateaus: Obstacle[] = [];
  for (const { azimuthDeg, elevationDeg } of [...points.slice(start), ...points.slice(0, start)]) {
    const last = plateaus.at(-1);
    if (last?.elevationDeg === elevationDeg) last.toDeg = azimuthDeg;
    else plateaus.push({ fromDeg: azimuthDeg, toDeg: azimuthDeg, elevationDeg });
  }
  return plateaus.filter(({ elevationDeg }) => elevationDeg > 0);
}

function isSameLine(a: Horizon, b: Horizon): boolean {
  return [...a, ...b].every(
    ({ azimuthDeg }) => Math.abs(horizonAt(a, azimuthDeg) - horizonAt(b, azimuthDeg)) < sameDeg,
  );
}

/**
 * The horizon that was written as obstacles. Kept as it was where the form did not ask, or asked in vain for one that
 * was measured point by point; what is no figure is sent as it is, for the dashboard to refuse.
 */
export function horizonBody(written: Written, kept: Horizon): unknown {
  if (!written.has("obstacle.0.fromDeg")) return kept;
  const rows = Array.from({ length: mostRows.obstacles }, (_, at) => ({
    fromDeg: written.number(`obstacle.${at}.fromDeg`),
    toDeg: written.number(`obstacle.${at}.toDeg`),
    elevationDeg: written.number(`obstacle.${at}.elevationDeg`),
  })).filter((row) => Object.values(row).some((figure) => figure !== null));
  if (rows.length === 0) return obstaclesOf(kept) === null ? kept : [];
  if (rows.every(isObstacle)) return horizonOf(rows);
  return rows.flatMap(({ fromDeg, toDeg, elevationDeg }) =>
    [fromDeg, toDeg].map((azimuthDeg) => ({ azimuthDeg, elevationDeg })),
  );
}

/** Figures that may be turned round the circle; the dashboard says what is wrong with others. */
function isObstacle(row: Record<keyof Obstacle, number | string | null>): row is Obstacle {
  const { fromDeg, toDeg, elevationDeg } = row;
  const isBearing = (figure: unknown) => typeof figure === "number" && figure >= -180 && figure <= 360;
  return isBearing(fromDeg) && isBearing(toDeg) && typeof elevationDeg === "number";
}
