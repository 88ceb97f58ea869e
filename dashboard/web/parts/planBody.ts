import { nothingPlanned } from "@boothward/shared-types/booking";
import { printSize } from "@boothward/shared-types/words";
import type { BookingInput, OpenBreak } from "@boothward/shared-types/booking";
import type { Units } from "../../alerts/format.ts";
import { metresOf } from "../words/lengths.ts";
import { instantOf } from "../words/zonedTime.ts";
import type { Written } from "./readForm.ts";

/** The fields of a plan beyond who, where and when. */
export type PlanPart = Pick<
  BookingInput,
  "printSizes" | "printsPerSession" | "breaks" | "eventId" | "power" | "promisedAtMs" | "travelMin" | "notes"
>;

/** Rows that a form shows at most. */
export const mostRows = { breaks: 6, loads: 12, obstacles: 8 };

/** What was written beside the short form; what it did not ask for yet is kept as it was. */
export function planBody(
  written: Written,
  kept: PlanPart | null,
  units: Units,
): Record<keyof PlanPart, unknown> {
  if (!written.has("printsPerSession")) return kept ?? nothingPlanned;
  const day = dayOf(written);
  return {
    printSizes: printSize.options.filter((size) => written.has(`printSize.${size}`)),
    printsPerSession: written.number("printsPerSession"),
    breaks: breaksIn(written, day),
    eventId: written.textOrNull("eventId"),
    power: powerBody(written, units),
    promisedAtMs: promisedIn(written, day),
    travelMin: written.number("travelMin"),
    notes: written.text("notes"),
  };
}

/** The power plan that was written, as the dashboard wants it; null: nothing is known of it. */
export function powerBody(written: Written, units: Units) {
  const source = written.text("power.source");
  if (source === "") return null;
  const length = written.number("power.cord.lengthM");
  const lengthM = typeof length === "number" ? metresOf(length, units) : length;
  return {
    source,
    volts: written.number("power.volts"),
    breakerA: written.number("power.breakerA"),
    cord: lengthM === null ? null : { lengthM, size: written.text("power.cord.size") },
    loads: rows(mostRows.loads).flatMap((at) => {
      const [what, watts] = [written.text(`load.${at}.what`), written.number(`load.${at}.watts`)];
      return watts === null ? [] : [{ what: what === "" ? "?" : what, watts }];
    }),
    batteryWh: written.number("power.batteryWh"),
  };
}

type Day = { date: string; open: string; zone: string };

function dayOf(written: Written): Day {
  return { date: written.text("date"), open: written.text("openAtMs"), zone: written.text("zone") };
}

/** A time before the opening's is on the next day, as a close is. */
function breaksIn(written: Written, day: Day): OpenBreak[] {
  return rows(mostRows.breaks).flatMap((at) => {
    const [from, to] = [written.text(`break.${at}.from`), written.text(`break.${at}.to`)];
    if (from === "" && to === "") return [];
    return [{ fromAtMs: onDay(day, from) ?? 0, toAtMs: onDay(day, to) ?? 0 }];
  });
}

function onDay({ date, open, zone }: Day, time: string): number | null {
  return at(time < open ? shifted(date, 1) : date, time, zone);
}

/** A time after the opening's is on the day before. */
function promisedIn(written: Written, { date, open, zone }: Day): number | null {
  const time = written.text("promisedAtMs");
  return time === "" ? null : at(time > open ? shifted(date, -1) : date, time, zone);
}

function at(date: string, time: string, zone: string): number | null {
  try {
    return instantOf(date, time, zone);
  } catch {
    // A zone that is none is refused by its own field.
    return null;
  }
}

function shifted(date: string, days: number): string {
  const atMs = Date.parse(`${date}T00:00:00Z`);
  return Number.isNaN(atMs) ? date : new Date(atMs + days * 86_400_000).toISOString().slice(0, 10);
}

function rows(most: number): number[] {
  return Array.from({ length: most }, (_, row) => row);
}
