import { beamFraction } from "../sun/beamFraction.ts";
import { clearSkyWm2 } from "../sun/clearSky.ts";
import { sunAt } from "../sun/sunPosition.ts";
import type { HeatSite } from "./heatSite.ts";

/** What the sun offers at an instant: `beam` through the openings, `sky` on level ground in kW/m2; both 0 to about 1. */
export type SunOffer = { readonly beam: number; readonly sky: number };

/** The sun over time, as the heat model is driven by it. */
export type HeatDrive = (atMs: number) => SunOffer;

const dark: SunOffer = { beam: 0, sky: 0 };

/** The clear sky's sun on a booth: what of it comes in, and how much it heats, is learned. */
export function sunDrive(site: HeatSite): HeatDrive {
  return (atMs) => {
    const { elevationDeg } = sunAt(site, atMs);
    if (elevationDeg <= 0) return dark;
    return { beam: beamFraction(site.views, site, atMs), sky: clearSkyWm2(elevationDeg) / 1000 };
  };
}
