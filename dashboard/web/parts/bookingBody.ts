import { isTimeZone } from "@boothward/shared-types/booking";
import { instantOf } from "../words/zonedTime.ts";
import type { Standing } from "@boothward/shared-types/site";
import type { Units } from "../../alerts/format.ts";
import { horizonBody } from "./obstacles.ts";
import { planBody } from "./planBody.ts";
import type { PlanPart } from "./planBody.ts";
import type { Written } from "./readForm.ts";

const dayMs = 86_400_000;

/** What a form of a booking does not ask for, or not always. */
type Kept = { horizon: Standing["horizon"]; units: Units; plan: PlanPart | null };

/**
 * The body of a booking as the dashboard wants it, from what was written. The hours are read in the zone of
 * the place; a close that is not after the opening is on the next day. What cannot be read is sent as null,
 * for the dashboard to refuse by its field. What the form does not ask for is `kept` as it was.
 */
export function bookingBody(written: Written, kept: Kept = { horizon: [], units: "metric", plan: null }) {
  const zone = written.text("zone");
  const date = written.text("date");
  const [open, close] = [written.text("openAtMs"), written.text("closeAtMs")];
  const isZone = isTimeZone(zone);
  const closeDate = close > open ? date : nextDay(date);
  return {
    boothId: written.text("boothId"),
    client: written.text("client"),
    place: written.text("place"),
    eventKind: written.text("eventKind"),
    zone,
    openAtMs: isZone ? instantOf(date, open, zone) : 0,
    closeAtMs: isZone ? instantOf(closeDate, close, zone) : 0,
    guests: written.number("guests"),
    sheetsLoaded: written.number("sheetsLoaded"),
    spareRolls: written.number("spareRolls") ?? 0,
    attendant: written.textOrNull("attendant"),
    latitudeDeg: written.number("latitudeDeg"),
    longitudeDeg: written.number("longitudeDeg"),
    standing: {
      headingDeg: written.number("standing.headingDeg"),
      horizon: horizonBody(written, kept.horizon),
      expectedHighC: celsiusOf(written.number("standing.expectedHighC"), kept.units),
    },
    ...planBody(written, kept.plan, kept.units),
  };
}

function celsiusOf(written: number | string | null, units: Units): number | string | null {
  return units === "us" && typeof written === "number" ? Math.round((written - 32) / 0.18) / 10 : written;
}

function nextDay(date: string): string {
  const atMs = Date.parse(`${date}T00:00:00Z`);
  return Number.isNaN(atMs) ? date : new Date(atMs + dayMs).toISOString().slice(0, 10);
}
