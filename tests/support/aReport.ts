import type { ClientReport, OwnerReport, Report } from "@boothward/shared-types";
import { hourMs, minuteMs, sixAtMs } from "./aStoredItem.ts";

const perQuarter = [3, 6, 9, 12, 14, 11, 8, 9, 13, 15, 12, 10, 6, 3, 4, 9, 14, 17, 16, 13];

/** A client's report of an evening from 19:00 to 24:00 in London, 18:00 to 23:00 UTC. */
export function aClientReport(over: Partial<ClientReport> = {}): ClientReport {
  const sessions = perQuarter.reduce((sum, each) => sum + each, 0);
  const promisedMs = 5 * hourMs;
  const stoppedMs = 4 * minuteMs;
  const unknownMs = 9 * minuteMs;
  return {
    ...{ client: "Edda and Rowan", place: "Quarry Barn", eventKind: "wedding", boothName: "Juniper" },
    ...{ zone: "Europe/London", openAtMs: sixAtMs, closeAtMs: sixAtMs + promisedMs },
    ...{ throughAtMs: sixAtMs + promisedMs, isOver: true, isInvented: false },
    figures: { sessions, prints: sessions * 2, sheets: sessions * 2, reprints: 6, digitalOnly: 4 },
    time: {
      ...{ bookedMs: promisedMs, overrunMs: 0, breaksMs: 0, promisedMs, stoppedMs, packedDownMs: 0 },
      ...{ unknownMs, readyMs: promisedMs - stoppedMs - unknownMs },
    },
    corrected: [],
    quarters: perQuarter.map((each, at) => ({
      ...{ atMs: sixAtMs + at * 15 * minuteMs, sessions: each, prints: each * 2, sheets: each * 2 },
    })),
    busiest: { atMs: sixAtMs + 17 * 15 * minuteMs, sessions: 17 },
    pauses: [
      {
        ...{ fromAtMs: sixAtMs + 130 * minuteMs, toAtMs: sixAtMs + 134 * minuteMs },
        ...{ why: "rollChange", reason: "media-empty" },
      },
      {
        ...{ fromAtMs: sixAtMs + 200 * minuteMs, toAtMs: sixAtMs + 209 * minuteMs },
        ...{ why: "unknown", reason: null },
      },
    ],
    ...over,
  };
}

/** The owner's part of the same evening. */
export function anOwnerReport(over: Partial<OwnerReport> = {}): OwnerReport {
  const { figures, time } = aClientReport();
  return {
    ...{ bookingId: "booking-1", boothId: "juniper", guests: 150 },
    counted: { ...figures, readyMin: Math.round(time.readyMs / minuteMs) },
    corrections: [],
    outside: { sessions: 1, sheets: 5 },
    counts: {
      ...{ sessionsBy: "layouts", sheetsBy: "counter" },
      sessions: [
        { by: "layouts", count: figures.sessions ?? 0 },
        { by: "shots", count: (figures.sessions ?? 0) + 3 },
      ],
      sheets: [
        { by: "counter", count: figures.sheets ?? 0 },
        { by: "jobs", count: (figures.sheets ?? 0) - 9 },
      ],
      difference: {
        ...{ quantity: "pitches", counted: 408, other: 399, otherBy: "jobs" },
        sinceAtMs: sixAtMs + hourMs,
      },
    },
    paper: {
      ...{ sheetsUsed: 418, wasted: { change: 3, test: 2, spoilt: 0 }, kitSheets: 400 },
      rolls: [{ atMs: sixAtMs + 132 * minuteMs, sheets: 400, by: "Ama", basis: "fitted" }],
    },
    waits: { known: 180, medianMs: 14_000, longestMs: 96_000, longestAtMs: sixAtMs + 255 * minuteMs },
    inside: { minC: 21.4, meanC: 27.8, maxC: 41.2, limitC: 40, minutes: 291, aboveLimitMin: 12 },
    gaps: [
      {
        ...{ fromAtMs: sixAtMs + 200 * minuteMs, toAtMs: sixAtMs + 209 * minuteMs },
        ...{ sessionsEstimate: 4, sheetsAfter: 7 },
      },
    ],
    alerts: [
      {
        ...{ alertId: "a-1", matter: "mediaLow", severity: "plan", sinceAtMs: sixAtMs + 100 * minuteMs },
        ...{ raisedAtMs: sixAtMs + 101 * minuteMs, toldAtMs: sixAtMs + 101 * minuteMs + 4_000 },
        ...{ takenAtMs: sixAtMs + 104 * minuteMs, takenBy: "Ama", clearedAtMs: sixAtMs + 134 * minuteMs },
      },
      {
        ...{ alertId: "a-2", matter: "tooHot", severity: "actNow", sinceAtMs: sixAtMs + 60 * minuteMs },
        ...{ raisedAtMs: sixAtMs + 61 * minuteMs, toldAtMs: null, takenAtMs: null, takenBy: null },
        clearedAtMs: null,
      },
    ],
    met: {
      ...{ alerts: 2, told: 1, taken: 1, medianToldMs: 4_000, medianTakenMs: 180_000 },
      longestTakenMs: 180_000,
    },
    cost: { amount: 73.15, currency: "EUR", pricePerRoll: 70 },
    ...over,
  };
}

export function aReport(over: Partial<ClientReport> = {}, owner: Partial<OwnerReport> = {}): Report {
  return { client: aClientReport(over), owner: anOwnerReport(owner) };
}
