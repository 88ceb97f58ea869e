import type { DemandInput, DemandPlan, SeenSession } from "../../dashboard/forecast/demand/demandInput.ts";

/** 17:00 UTC on an invented Saturday. */
export const doorsAtMs = Date.UTC(2026, 5, 6, 17);
const hourMs = 3_600_000;
const minuteMs = 60_000;

/** A wedding of 120 guests from 17:00 to 22:00 with two sheets a session; `over` changes what a test is about. */
export function aDemandPlan(over: Partial<DemandPlan> = {}): DemandPlan {
  return {
    key: "booking-1",
    openAtMs: doorsAtMs,
    closeAtMs: doorsAtMs + 5 * hourMs,
    guests: 120,
    eventKind: "wedding",
    sheetsPerSession: 2,
    sheetsLoaded: 300,
    ...over,
  };
}

/** Nothing seen yet. */
export function aDemandInput(over: Partial<DemandInput> = {}): DemandInput {
  return { plan: aDemandPlan(), past: [], sessions: [], stops: [], ...over };
}

/** Sessions of two sheets, one every `everyMin` minutes between two times of the evening, in minutes from its doors. */
export function sessionsEvery(everyMin: number, fromMin: number, toMin: number): SeenSession[] {
  const count = Math.max(0, Math.floor((toMin - fromMin) / everyMin));
  return Array.from({ length: count }, (_, at) => ({
    atMs: doorsAtMs + (fromMin + (at + 1) * everyMin) * minuteMs,
    sheets: 2,
  }));
}

/** An instant of the evening, in minutes from its doors. */
export function atMin(min: number): number {
  return doorsAtMs + min * minuteMs;
}
