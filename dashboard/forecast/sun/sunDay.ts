import { getTimes } from "suncalc";
import { zoneOffsetMs } from "../../booth/zoneOffset.ts";
import { findPeak, findRoot, type Stretch } from "./findRoot.ts";
import { sunAt, type Place } from "./sunPosition.ts";

/** The sun's day: `upAllDay` in the polar day, `downAllDay` in the polar night; then it neither rises nor sets. */
export type SunDay = {
  readonly course: "risesAndSets" | "upAllDay" | "downAllDay";
  readonly riseAtMs: number | null;
  readonly transitAtMs: number;
  readonly setAtMs: number | null;
};

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** True elevation at which the upper limb is seen on a level horizon: 34' of refraction, 16' of radius. */
const limbDeg = -0.8333;

/** Near the poles the sun is highest and lowest some way off its transit; a bracket this wide holds the turn. */
const turnMs = 3 * hourMs;

/**
 * Rise, transit and set of the sun on the local day of an instant: the rise before and the set after the transit
 * that is nearest to that day's noon by the event's clocks, so that an event after midnight keeps its own day. Far
 * north in summer the set may come after midnight.
 *
 * Source: transit by suncalc 2 (hour angle zero); rise and set are the upper limb on a level horizon.
 */
export function sunDay(place: Place, atMs: number, zone: string): SunDay {
  const noon = new Date(localNoonAtMs(atMs, zone));
  const transitAtMs = getTimes(noon, place.latitudeDeg, place.longitudeDeg).solarNoon.getTime();
  const height = (eachMs: number) => sunAt(place, eachMs).trueElevationDeg - limbDeg;
  const depth = (eachMs: number) => -height(eachMs);
  const highestAtMs = findPeak(height, around(transitAtMs));
  if (height(highestAtMs) <= 0) return unbroken("downAllDay", transitAtMs);
  const beforeAtMs = findPeak(depth, around(transitAtMs - dayMs / 2));
  const afterAtMs = findPeak(depth, around(transitAtMs + dayMs / 2));
  const riseAtMs =
    height(beforeAtMs) > 0 ? null : findRoot(height, { fromMs: beforeAtMs, toMs: highestAtMs });
  const setAtMs = height(afterAtMs) > 0 ? null : findRoot(height, { fromMs: highestAtMs, toMs: afterAtMs });
  if (riseAtMs === null && setAtMs === null) return unbroken("upAllDay", transitAtMs);
  return { course: "risesAndSets", riseAtMs, transitAtMs, setAtMs };
}

/** The calendar day of an instant by the clocks of a zone: midnight to midnight, 23 or 25 hours at a change. */
export function localDay(atMs: number, zone: string): Stretch {
  const wallDay = Math.floor((atMs + zoneOffsetMs(atMs, zone)) / dayMs);
  return { fromMs: midnightAtMs(wallDay, zone), toMs: midnightAtMs(wallDay + 1, zone) };
}

function midnightAtMs(wallDay: number, zone: string): number {
  const wallMs = wallDay * dayMs;
  const guessMs = wallMs - zoneOffsetMs(wallMs, zone);
  return wallMs - zoneOffsetMs(guessMs, zone);
}

/** Noon by the clocks; an hour off on a day of clock change, which is no matter. */
function localNoonAtMs(atMs: number, zone: string): number {
  const { fromMs, toMs } = localDay(atMs, zone);
  return (fromMs + toMs) / 2;
}

function around(atMs: number): Stretch {
  return { fromMs: atMs - turnMs, toMs: atMs + turnMs };
}

function unbroken(course: "upAllDay" | "downAllDay", transitAtMs: number): SunDay {
  return { course, riseAtMs: null, transitAtMs, setAtMs: null };
}
