import type { BoothBox, Standing } from "@boothward/shared-types";

/** A trailer of 2.4 by 4 m with a door on the left, an awninged hatch on the right, and the printer behind the door. */
export function aTrailerBox(over: Partial<BoothBox> = {}): BoothBox {
  const door = { xM: 0, yM: 2, bearingDeg: 270, widthM: 0.8, heightM: 1.9, sillM: 0, overhang: null };
  const awning = { depthM: 0.6, heightM: 1.9 };
  const hatch = { xM: 2.4, yM: 1.6, bearingDeg: 90, widthM: 1.6, heightM: 0.9, sillM: 1, overhang: awning };
  return {
    ...{ widthM: 2.4, lengthM: 4, heightM: 2.2, openings: [door, hatch] },
    printer: { xM: 1.2, yM: 2.1, heightM: 1 },
    ...over,
  };
}

/** Facing north on level ground, 31 C expected. */
export function aStanding(over: Partial<Standing> = {}): Standing {
  return { headingDeg: 0, horizon: [], expectedHighC: 31, ...over };
}
