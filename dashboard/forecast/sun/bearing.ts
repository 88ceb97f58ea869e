/** The same direction as a bearing from 0 up to, not including, 360 degrees. For computed angles, not typed ones. */
export function bearingOf(deg: number): number {
  return ((deg % 360) + 360) % 360;
}

/** How far to turn from one bearing to another the short way: above -180, at most 180 degrees, right positive. */
export function turnDeg(fromDeg: number, toDeg: number): number {
  const turn = bearingOf(toDeg - fromDeg);
  return turn > 180 ? turn - 360 : turn;
}
