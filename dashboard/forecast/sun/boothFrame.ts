import { bearingOf } from "./bearing.ts";
import type { Place } from "./sunPosition.ts";

/** A roof over an opening: how far it stands out, and how high its outer edge is above the booth's floor. */
export type Overhang = { readonly depthM: number; readonly heightM: number };

/** A door, hatch or window: the middle of its foot, where it looks relative to the heading, and its size. */
export type Opening = {
  readonly xM: number;
  readonly yM: number;
  readonly bearingDeg: number;
  readonly widthM: number;
  readonly heightM: number;
  readonly sillM: number;
  readonly overhang: Overhang | null;
};

export type PrinterPlace = { readonly xM: number; readonly yM: number; readonly heightM: number };

/**
 * A booth in its own frame: the origin is the rear left corner of the floor, x runs to the right (0 to `widthM`), y
 * forward along the heading (0 to `lengthM`), heights from the floor. The heading is from true north.
 */
export type BoothFrame = {
  readonly headingDeg: number;
  readonly widthM: number;
  readonly lengthM: number;
  readonly heightM: number;
  readonly openings: readonly Opening[];
  readonly printer: PrinterPlace;
};

/** What stands up around a site: joined by straight lines from azimuth to azimuth, and round through north. */
export type HorizonPoint = { readonly azimuthDeg: number; readonly elevationDeg: number };

export type SunSite = Place & { readonly horizon: readonly HorizonPoint[] };

/**
 * An opening as the sun needs it: where it looks from true north, and the printer's point from it: `depthM` behind
 * its plane, `rightM` of its middle looking out, `heightM` above the floor; null when that is not known.
 */
export type OpeningView = Pick<Opening, "bearingDeg" | "widthM" | "heightM" | "sillM" | "overhang"> & {
  readonly printer: { readonly depthM: number; readonly rightM: number; readonly heightM: number } | null;
};

/** The openings of a booth, each with the printer's place as measured from it. */
export function openingViews(frame: BoothFrame): readonly OpeningView[] {
  return frame.openings.map((opening) => ({
    bearingDeg: bearingOf(frame.headingDeg + opening.bearingDeg),
    widthM: opening.widthM,
    heightM: opening.heightM,
    sillM: opening.sillM,
    overhang: opening.overhang,
    printer: printerFrom(opening, frame.printer),
  }));
}

function printerFrom(opening: Opening, printer: PrinterPlace): NonNullable<OpeningView["printer"]> {
  const bearing = (opening.bearingDeg * Math.PI) / 180;
  const [outX, outY] = [Math.sin(bearing), Math.cos(bearing)];
  const [offX, offY] = [printer.xM - opening.xM, printer.yM - opening.yM];
  return {
    depthM: 0 - (offX * outX + offY * outY),
    rightM: offX * outY - offY * outX,
    heightM: printer.heightM,
  };
}
