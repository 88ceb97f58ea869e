import type { BoothFrame, Opening, OpeningView, SunSite } from "../../dashboard/forecast/sun/boothFrame.ts";

/** A door in the middle of the front wall of a trailer 2.4 m wide and 4 m long. */
export function anOpening(parts: Partial<Opening> = {}): Opening {
  return {
    ...{ xM: 1.2, yM: 4, bearingDeg: 0, widthM: 0.8, heightM: 1.9, sillM: 0, overhang: null },
    ...parts,
  };
}

/** A trailer that looks west through one door, the printer 1.2 m behind its middle. */
export function aBoothFrame(parts: Partial<BoothFrame> = {}): BoothFrame {
  return {
    ...{ headingDeg: 270, widthM: 2.4, lengthM: 4, heightM: 2.2 },
    ...{ openings: [anOpening()], printer: { xM: 1.2, yM: 2.8, heightM: 1 } },
    ...parts,
  };
}

/** An opening with the printer's place measured from it. */
export function anOpeningView(parts: Partial<OpeningView> = {}): OpeningView {
  return {
    ...{ bearingDeg: 270, widthM: 0.8, heightM: 1.9, sillM: 0, overhang: null },
    ...{ printer: { depthM: 1.2, rightM: 0, heightM: 1 } },
    ...parts,
  };
}

export function aSunSite(
  latitudeDeg: number,
  longitudeDeg: number,
  horizonDeg: number | null = null,
): SunSite {
  const horizon = horizonDeg === null ? [] : [{ azimuthDeg: 0, elevationDeg: horizonDeg }];
  return { latitudeDeg, longitudeDeg, horizon };
}
