import { bearingOf, turnDeg } from "./bearing.ts";
import { openingViews, type BoothFrame, type PrinterPlace, type SunSite } from "./boothFrame.ts";
import type { Stretch } from "./findRoot.ts";
import { clearSunAt, passMargin, rayOnto, sunDirection, wallOf, type SunDirection } from "./sunRay.ts";

export type HeadingMinutes = { readonly headingDeg: number; readonly minutes: number };

/** One place for the printer: its minutes as the booth stands, and the heading that would suit it best. */
export type PlaceMinutes = {
  readonly printer: PrinterPlace;
  readonly minutes: number;
  readonly best: HeadingMinutes;
};

/**
 * Where to stand: minutes of sun on the printer by heading, the best heading and how far to turn to it, and the same
 * for other places of the printer, in the order they were given.
 */
export type StandingAdvice = {
  readonly minutesNow: number;
  readonly headings: readonly HeadingMinutes[];
  readonly best: HeadingMinutes & { readonly turnDeg: number };
  readonly places: readonly PlaceMinutes[];
  readonly bestPlace: PlaceMinutes | null;
};

const headingStepDeg = 5;
const lookMs = 60_000;

/** Minutes within which two headings, or two places, are as good as each other. */
const sameMinutes = 0.5;

/**
 * How many minutes of the open hours the sun reaches the printer, for each heading by five degrees and for each
 * candidate place: on a clear day, whatever the weather will be.
 *
 * The best heading is the middle of the widest span of headings with the fewest minutes, so that a booth parked a few
 * degrees off it is still well off. The best place is that with the fewest minutes as the booth stands.
 */
export function standingAdvice(
  frame: BoothFrame,
  site: SunSite,
  openHours: Stretch,
  candidates: readonly PrinterPlace[],
): StandingAdvice {
  const suns = sunsOver(site, openHours);
  const headings = minutesByHeading(frame, suns);
  const best = bestOf(headings);
  const places = candidates.map((printer) => placeMinutes({ ...frame, printer }, suns));
  return {
    minutesNow: minutesOfSun(frame, suns),
    headings,
    best: { ...best, turnDeg: turnDeg(frame.headingDeg, best.headingDeg) },
    places,
    bestPlace: places.reduce<PlaceMinutes | null>(
      (kept, each) => (kept === null || each.minutes < kept.minutes - sameMinutes ? each : kept),
      null,
    ),
  };
}

/** Minutes of sun on the printer, from looks at the sun that are shared by all headings and places asked for. */
function minutesOfSun(frame: BoothFrame, suns: readonly SunLook[]): number {
  const walls = openingViews(frame).map((view) => ({ view, wall: wallOf(view.bearingDeg) }));
  const marginAt = ({ direction, clearDeg }: SunLook) => {
    if (clearDeg <= 0) return clearDeg;
    let most = -1;
    for (const { view, wall } of walls) most = Math.max(most, passMargin(view, rayOnto(wall, direction)));
    return Math.min(most, clearDeg);
  };
  let litMs = 0;
  let before = -1;
  for (const look of suns) {
    const now = marginAt(look);
    litMs += look.sinceMs * litShareOf(before, now);
    before = now;
  }
  return litMs / 60_000;
}

/** Share of a step in which a margin is above zero, the margin taken as straight between its ends. */
function litShareOf(before: number, now: number): number {
  if (before > 0) return now > 0 ? 1 : before / (before - now);
  return now > 0 ? now / (now - before) : 0;
}

/** One look at the sun: where it stands, how clear of ground and horizon, and how long after the look before. */
type SunLook = { readonly direction: SunDirection; readonly clearDeg: number; readonly sinceMs: number };

function sunsOver(site: SunSite, { fromMs, toMs }: Stretch): readonly SunLook[] {
  if (!(toMs > fromMs)) return [];
  const count = Math.ceil((toMs - fromMs) / lookMs);
  const stepMs = (toMs - fromMs) / count;
  return Array.from({ length: count + 1 }, (_, step) => {
    const sun = clearSunAt(site, fromMs + step * stepMs);
    return { direction: sunDirection(sun), clearDeg: sun.clearDeg, sinceMs: step === 0 ? 0 : stepMs };
  });
}

function minutesByHeading(frame: BoothFrame, suns: readonly SunLook[]): readonly HeadingMinutes[] {
  return Array.from({ length: 360 / headingStepDeg }, (_, step) => {
    const headingDeg = step * headingStepDeg;
    return { headingDeg, minutes: minutesOfSun({ ...frame, headingDeg }, suns) };
  });
}

function placeMinutes(frame: BoothFrame, suns: readonly SunLook[]): PlaceMinutes {
  return {
    printer: frame.printer,
    minutes: minutesOfSun(frame, suns),
    best: bestOf(minutesByHeading(frame, suns)),
  };
}

/** The middle of the longest run, round the circle, of headings that have the fewest minutes. */
function bestOf(headings: readonly HeadingMinutes[]): HeadingMinutes {
  const fewest = Math.min(...headings.map(({ minutes }) => minutes));
  const isBest = headings.map(({ minutes }) => minutes <= fewest + sameMinutes);
  const runs = isBest.map((_, start) => runFrom(isBest, start));
  const longest = Math.max(...runs);
  const middle = runs.indexOf(longest) + Math.floor((longest - 1) / 2);
  const headingDeg = bearingOf(middle * headingStepDeg);
  return { headingDeg, minutes: headings[headingDeg / headingStepDeg]?.minutes ?? fewest };
}

function runFrom(isBest: readonly boolean[], start: number): number {
  let length = 0;
  while (length < isBest.length && isBest[(start + length) % isBest.length] === true) length++;
  return length;
}
