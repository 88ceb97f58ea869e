import { beamFraction } from "../sun/beamFraction.ts";
import { clearSkyWm2 } from "../sun/clearSky.ts";
import { sunAt } from "../sun/sunPosition.ts";
import type { HeatSite } from "./heatSite.ts";

/** What the sun offers at an instant: `beam` through the openings, `sky` on roof and walls; both 0 to about 1. */
export type SunOffer = { readonly beam: number; readonly sky: number };

/** The sun over time, as the heat model is driven by it. */
export type HeatDrive = (atMs: number) => SunOffer;

const dark: SunOffer = { beam: 0, sky: 0 };

/** The clear sky's sun on a booth: what of it comes in, and how much it heats, is learned. */
export function sunDrive(site: HeatSite): HeatDrive {
  return (atMs) => {
    const { elevationDeg } = sunAt(site, atMs);
    if (elevationDeg <= 0) return dark;
    return { beam: beamFraction(site.views, site, atMs), sky: onShell(elevationDeg) };
  };
}

/**
 * Sun on roof and walls together: in the morning and the evening it heats a booth by its sides. Walls of a booth that
 * may stand any way round have, by Cauchy's mean shadow of an upright body, 1/pi of the level part of the beam; the
 * beam is taken as what lays the clear sky's light on level ground.
 */
function onShell(elevationDeg: number): number {
  const levelWm2 = clearSkyWm2(elevationDeg);
  const wallsWm2 = levelWm2 / Math.tan((elevationDeg * Math.PI) / 180) / Math.PI;
  return (levelWm2 + wallsWm2) / fullShellWm2;
}

/** About what both get of a high sun. */
const fullShellWm2 = 1200;
