import type { BoothFrame, Opening, SunSite } from "./boothFrame.ts";
import type { Stretch } from "./findRoot.ts";
import { minutesOf, sunOnPrinter } from "./sunOnPrinter.ts";

/** A shade over one opening: how far it stands out; its height is that of the opening's top when null. */
export type Shade = {
  readonly opening: number;
  readonly depthM: number;
  readonly heightM: number | null;
};

/** Minutes of sun on the printer as the booth stands and with the shade out. */
export type ShadeSaving = {
  readonly minutesWithout: number;
  readonly minutesWith: number;
  readonly savedMinutes: number;
};

/**
 * What a shade of a given depth saves within a window on a clear day. It is taken to be wide enough that the sun does
 * not come in beside it; where the opening has an overhang already, the shade comes on at the overhang's height.
 */
export function shadeSaving(frame: BoothFrame, site: SunSite, window: Stretch, shade: Shade): ShadeSaving {
  const minutesWithout = minutesOf(sunOnPrinter(frame, site, window));
  const minutesWith = minutesOf(sunOnPrinter(withShade(frame, shade), site, window));
  return { minutesWithout, minutesWith, savedMinutes: minutesWithout - minutesWith };
}

function withShade(frame: BoothFrame, shade: Shade): BoothFrame {
  const openings = frame.openings.map((opening, index) =>
    index === shade.opening ? shaded(opening, shade) : opening,
  );
  return { ...frame, openings };
}

function shaded(opening: Opening, { depthM, heightM }: Shade): Opening {
  const topM = opening.overhang?.heightM ?? opening.sillM + opening.heightM;
  const depth = Math.max(depthM, opening.overhang?.depthM ?? 0);
  return { ...opening, overhang: { depthM: depth, heightM: heightM ?? topM } };
}
