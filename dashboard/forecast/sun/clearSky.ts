/**
 * Sunlight on level ground under a clear sky, W/m2, from the sun's elevation as seen; 0 when it is down.
 *
 * Source: Haurwitz 1945 and 1946, in the form 1098 cos z exp(-0.059 / cos z).
 */
export function clearSkyWm2(elevationDeg: number): number {
  return strongestWm2 * Math.max(0, sineOf(elevationDeg)) * clearAirShare(elevationDeg);
}

/** Share of the sun's beam that a clear sky lets through, 0 when the sun is down. Source: as `clearSkyWm2`. */
export function clearAirShare(elevationDeg: number): number {
  const sine = sineOf(elevationDeg);
  return sine > 0 ? Math.exp(-0.059 / sine) : 0;
}

const strongestWm2 = 1098;

function sineOf(deg: number): number {
  return Math.sin((deg * Math.PI) / 180);
}
