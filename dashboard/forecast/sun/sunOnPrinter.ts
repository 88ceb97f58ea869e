import { openingViews, type BoothFrame, type OpeningView, type SunSite } from "./boothFrame.ts";
import { positiveStretches, type Stretch } from "./findRoot.ts";
import { clearSunAt, passMargin, sunRay } from "./sunRay.ts";

/** A stretch of sun on the printer, with the places in the list of the openings it comes through. */
export type SunStretch = Stretch & { readonly openings: readonly number[] };

/** Between two looks the sun moves half a degree: less than the width of what stands on a horizon. */
const lookMs = 2 * 60_000;

/**
 * When the sun reaches the printer within a window, in order; empty when it never does.
 *
 * Each edge is found on the true instant for the printer's one point and the sun's centre, with the elevation as seen
 * (refraction at sea level). Walls are thin, the sky is clear. `localDay` gives the window of a day.
 */
export function sunOnPrinter(frame: BoothFrame, site: SunSite, window: Stretch): readonly SunStretch[] {
  return sunThroughOpenings(openingViews(frame), site, window);
}

/** The same for openings of which the printer's place is measured directly; one without it lets no sun reach it. */
export function sunThroughOpenings(
  views: readonly OpeningView[],
  site: SunSite,
  window: Stretch,
): readonly SunStretch[] {
  const found = views.flatMap((view, opening) => {
    if (view.printer === null) return [];
    const margin = (atMs: number) => {
      const sun = clearSunAt(site, atMs);
      return Math.min(sun.clearDeg, passMargin(view, sunRay(sun, view.bearingDeg)));
    };
    return positiveStretches(margin, window, lookMs).map((stretch) => ({ ...stretch, openings: [opening] }));
  });
  return joined(found.sort((one, other) => one.fromMs - other.fromMs));
}

/** Minutes of sun in stretches that do not overlap. */
export function minutesOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((minutes, { fromMs, toMs }) => minutes + (toMs - fromMs) / 60_000, 0);
}

/** Stretches in order of their beginnings, those that overlap made one. */
function joined(stretches: readonly SunStretch[]): readonly SunStretch[] {
  const kept: SunStretch[] = [];
  for (const next of stretches) {
    const last = kept.at(-1);
    if (last === undefined || next.fromMs > last.toMs) kept.push(next);
    else kept[kept.length - 1] = joinedWith(last, next);
  }
  return kept;
}

function joinedWith(last: SunStretch, next: SunStretch): SunStretch {
  return {
    fromMs: last.fromMs,
    toMs: Math.max(last.toMs, next.toMs),
    openings: [...new Set([...last.openings, ...next.openings])].sort((one, other) => one - other),
  };
}
