import { openingViews, type BoothFrame, type SunSite } from "../../forecast/sun/boothFrame.ts";
import type { Stretch } from "../../forecast/sun/findRoot.ts";
import { localDay, sunDay, type SunDay } from "../../forecast/sun/sunDay.ts";
import { sunOnPrinter, sunThroughOpenings, type SunStretch } from "../../forecast/sun/sunOnPrinter.ts";
import { instantOf, wallOf } from "../words/zonedTime.ts";
import type { Planned } from "./planned.ts";

/** The sun at a booth on one day. `slide`: what the slider runs over, from the sun's rise to its set. */
export type DayPlan = {
  sun: SunDay;
  slide: Stretch;
  hours: Stretch;
  onPrinter: readonly SunStretch[];
  /** The same by opening, in the order of the openings. */
  byOpening: readonly (readonly Stretch[])[];
};

export const slideStepMs = 5 * 60_000;

/** The open hours of a booking as they would be on another date of its zone. */
export function hoursOn(date: string, { openAtMs, closeAtMs, zone }: Planned): Stretch {
  const open = wallOf(openAtMs, zone);
  const fromMs = open.date === date ? openAtMs : (instantOf(date, open.time, zone) ?? openAtMs);
  return { fromMs, toMs: fromMs + (closeAtMs - openAtMs) };
}

/** When the sun reaches the printer on the day of these open hours, up to the close. */
export function dayPlan(frame: BoothFrame, site: SunSite, zone: string, hours: Stretch): DayPlan {
  const day = localDay(hours.fromMs, zone);
  const window = { fromMs: day.fromMs, toMs: Math.max(day.toMs, hours.toMs) };
  const sun = sunDay(site, hours.fromMs, zone);
  return {
    sun,
    slide: {
      fromMs: Math.floor((sun.riseAtMs ?? day.fromMs) / slideStepMs) * slideStepMs,
      toMs: Math.ceil((sun.setAtMs ?? day.toMs) / slideStepMs) * slideStepMs,
    },
    hours,
    onPrinter: sunOnPrinter(frame, site, window),
    byOpening: openingViews(frame).map((view) => sunThroughOpenings([view], site, window)),
  };
}

/** Where the slider stands at first: now, else in the middle of the first sun on the printer, else at the sun's height. */
export function firstMoment({ slide, onPrinter, sun }: DayPlan, nowMs: number): number {
  if (nowMs >= slide.fromMs && nowMs <= slide.toMs) return nowMs;
  const [first] = onPrinter;
  return first === undefined ? sun.transitAtMs : (first.fromMs + first.toMs) / 2;
}

/** The openings through which the sun is on the printer at a moment; none: it is in the shade. */
export function litThrough({ byOpening }: DayPlan, atMs: number): number[] {
  return byOpening.flatMap((stretches, index) =>
    stretches.some(({ fromMs, toMs }) => atMs >= fromMs && atMs <= toMs) ? [index] : [],
  );
}
