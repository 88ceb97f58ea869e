import { bearingOf } from "./bearing.ts";
import type { HorizonPoint } from "./boothFrame.ts";

/**
 * How high the horizon stands at an azimuth, degrees: straight between its points, round through north; 0 without
 * any. The points may come in any order; of two at one azimuth either may hold there.
 */
export function horizonAt(horizon: readonly HorizonPoint[], azimuthDeg: number): number {
  let [before, after] = [horizon[0], horizon[0]];
  let [behindDeg, aheadDeg] = [Infinity, Infinity];
  for (const point of horizon) {
    const behind = bearingOf(azimuthDeg - point.azimuthDeg);
    const ahead = bearingOf(point.azimuthDeg - azimuthDeg);
    if (behind < behindDeg) [before, behindDeg] = [point, behind];
    if (ahead < aheadDeg) [after, aheadDeg] = [point, ahead];
  }
  if (before === undefined || after === undefined) return 0;
  const widthDeg = behindDeg + aheadDeg;
  const share = widthDeg === 0 ? 0 : behindDeg / widthDeg;
  return before.elevationDeg + share * (after.elevationDeg - before.elevationDeg);
}
