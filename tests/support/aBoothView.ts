import { noStanding } from "@boothward/shared-types";
import type { AlertView, BoothEvening, BoothView, Tally } from "@boothward/shared-types/view";
import { noFigures } from "../../dashboard/alerts/alert.ts";
import { anOutlook } from "./anOutlook.ts";

/** 18:00 in Berlin on an invented Saturday. */
export const eveningAtMs = Date.UTC(2026, 5, 20, 16, 0);
export const hourMs = 3_600_000;
export const minuteMs = 60_000;

/** A booth as a page gets it: open from 17:00 to 23:00, at 18:00, all well; `over` changes what a test is about. */
export function aBoothView(over: Partial<BoothView> = {}): BoothView {
  return {
    boothId: "juniper",
    name: "Juniper",
    isTrailer: false,
    kitSheets: 300,
    limitC: 40,
    box: null,
    scenario: null,
    health: "fine",
    heardAtMs: eveningAtMs - 4000,
    isLinked: true,
    booking: aBookingView(),
    media: aMediaView(),
    printer: aPrinterView(),
    inside: anInsideView(),
    power: { isOnMains: true, batteryPct: null, sinceAtMs: eveningAtMs - 2 * hourMs },
    counts: aTally(),
    past: [
      { atMs: eveningAtMs - hourMs, sheetsLeft: 300 },
      { atMs: eveningAtMs - hourMs / 2, sheetsLeft: 275 },
      { atMs: eveningAtMs - minuteMs, sheetsLeft: 246 },
    ],
    rollChangesAtMs: [],
    outlook: anOutlook(eveningAtMs, aMediaOutlook()),
    alerts: [],
    faults: [],
    clockOffMs: 300,
    keptAside: 0,
    ...over,
  };
}

export type InsideView = NonNullable<BoothView["inside"]>;

/** Read twenty seconds ago, steady, one thermometer without a hygrometer. */
export function anInsideView(over: Partial<InsideView> = {}): InsideView {
  const unknown = { outsideC: null, humidityPct: null };
  return { insideC: 27.4, atMs: eveningAtMs - 20_000, per15MinC: 0.2, ...unknown, ...over };
}

export type MediaView = NonNullable<BoothView["media"]>;

/** 246 sheets by the printer's own meter, nothing to ask. */
export function aMediaView(over: Partial<MediaView> = {}): MediaView {
  return {
    ...{ sheetsLeft: 246, lowSheets: 246, highSheets: 246, figure: "metered", confirmedBy: null },
    ...{ atMs: eveningAtMs - minuteMs, rollFittedAtMs: null, spareRolls: 1 },
    ...{ partialRolls: [], question: null, said: [] },
    ...over,
  };
}

export type PrinterView = NonNullable<BoothView["printer"]>;

/** Idle for an hour, without a reason. */
export function aPrinterView(over: Partial<PrinterView> = {}): PrinterView {
  const sinceAtMs = eveningAtMs - hourMs;
  return { state: "idle", reasons: [], sinceAtMs, queuedJobs: 0, stalledSinceAtMs: null, ...over };
}

/** 34 sessions by their layouts and 54 sheets by the printer's jobs, which agree. */
export function aTally(over: Partial<Tally> = {}): Tally {
  return {
    ...{ sessions: 34, pitches: 54, sessionsBy: "layouts", pitchesBy: "jobs" },
    ...{ reprints: 0, testPitches: 0, digitalOnly: 0, difference: null },
    ...over,
  };
}

export type BookingView = NonNullable<BoothView["booking"]>;

export function aBookingView(over: Partial<BookingView> = {}): BookingView {
  return {
    bookingId: "booking-1",
    client: "Fern and Rowan",
    place: "Quarry Barn",
    eventKind: "wedding",
    zone: "Europe/Berlin",
    openAtMs: eveningAtMs - hourMs,
    closeAtMs: eveningAtMs + 5 * hourMs,
    guests: 140,
    ...{ latitudeDeg: null, longitudeDeg: null, standing: noStanding },
    spareRolls: 1,
    attendant: "Ama Quill",
    sunsetAtMs: null,
    ...over,
  };
}

export type MediaOutlook = NonNullable<BoothView["outlook"]["media"]>;

/** Paper that lasts to the close at 23:00 with 86 to spare. */
export function aMediaOutlook(over: Partial<MediaOutlook> = {}): MediaOutlook {
  return {
    sheetsPerHour: 32,
    fan: [
      { atMs: eveningAtMs, p10: 246, p50: 246, p90: 246 },
      { atMs: eveningAtMs + 5 * hourMs, p10: 40, p50: 86, p90: 132 },
    ],
    emptyAtMs: { p10: null, p50: null, p90: null },
    leftAtClose: { p10: 40, p50: 86, p90: 132 },
    lastsChance: 0.99,
    ...{ basis: "planned", change: null, rationing: null, waits: null },
    rolls: { needed: 0, spares: 1, lastsChance: 1 },
    ...over,
  };
}

export function anAlertView(over: Partial<AlertView> = {}): AlertView {
  return {
    alertId: "alert-1",
    boothId: "juniper",
    matter: "printerStopped",
    severity: "actNow",
    sinceAtMs: eveningAtMs - 3 * minuteMs,
    ...noFigures,
    reasons: ["media-empty"],
    sheetsLeft: 0,
    spareRolls: 1,
    queuedJobs: 4,
    insideC: 27.4,
    limitC: 40,
    ...{ state: "unacknowledged", taken: null, laterUntilAtMs: null, doneAtMs: null },
    ...{ suppressedBy: null, overAtMs: null },
    ...over,
  };
}

export function aBoothEvening(over: Partial<BoothEvening> = {}): BoothEvening {
  return {
    boothId: "juniper",
    fromAtMs: eveningAtMs - hourMs,
    toAtMs: eveningAtMs + 5 * hourMs,
    inside: [0, 1, 2, 3].map((i) => ({ atMs: eveningAtMs - (30 - i * 10) * minuteMs, insideC: 26 + i / 2 })),
    quarters: [5, 9, 8, 12].map((sessions, i) => ({
      atMs: eveningAtMs - hourMs + i * 15 * minuteMs,
      sessions,
      pitches: Math.round(sessions * 1.6),
    })),
    stops: [],
    whatIfs: [],
    ...over,
  };
}
