import type { Booking, Report, StoredItem } from "@boothward/shared-types";
import { bookingWindows, type BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import type { BoothState } from "../booth/boothState.ts";
import { countEvening } from "./countEvening.ts";
import { foldEvening, standingFacts } from "./foldEvening.ts";
import { countsOf, gapsOf, insideOf, paperOf, waitsOf, type InsideMinute } from "./ownerFigures.ts";
import { readyTime } from "./readyTime.ts";

/** What a report is made of. */
export type ReportInput = {
  readonly bookingId: string;
  /** The booking with those of its booth before and after it, which bound it. */
  readonly near: readonly Booking[];
  readonly settings: BoothSettings;
  /** Facts of the booth around the booking, in any order; those of other bookings are told apart here. */
  readonly facts: readonly StoredItem[];
  /** Instants at which anything came from the booth, oldest first. */
  readonly heard: readonly number[];
  readonly inside: readonly InsideMinute[];
  readonly nowMs: number;
};

/**
 * The report of one booth at one event, from its facts; without corrections, alerts and cost, which `withMore`
 * adds. Null: other bookings left it no time, or it has not opened yet.
 */
export function eventReport(input: ReportInput): Report | null {
  const { bookingId, near, settings, nowMs } = input;
  const state = foldEvening(settings.boothId, input.facts);
  const held = heldOf(state, near, bookingId);
  const planned = near.find((each) => each.bookingId === bookingId);
  if (held === null || planned === undefined || nowMs < held.openAtMs) return null;
  const throughAtMs = Math.min(nowMs, held.closeAtMs);
  const counts = countEvening(state, held, nowMs);
  const bookedMs = planned.closeAtMs - planned.openAtMs;
  const { time, pauses } = readyTime(state, held, bookedMs, input.heard, throughAtMs);
  const { client, place, eventKind, zone, openAtMs, closeAtMs, guests } = held;
  const { figures, quarters, busiest, outside } = counts;
  const unknown = pauses.filter(({ why }) => why === "unknown");
  return {
    client: {
      ...{ client, place, eventKind, boothName: settings.name, zone, openAtMs, closeAtMs, throughAtMs },
      ...{ isOver: nowMs >= closeAtMs, isInvented: (state.agent?.scenario ?? null) !== null },
      ...{ figures, time, corrected: [], busiest },
      ...{ quarters: [...quarters], pauses: [...pauses] },
    },
    owner: {
      ...{ bookingId, boothId: settings.boothId, guests, outside },
      counted: { ...figures, readyMin: minutesOf(time.readyMs) },
      counts: countsOf(state, held, counts, nowMs),
      paper: paperOf(state, standingFacts(input.facts), held, settings.kitSheets),
      waits: waitsOf(counts),
      inside: insideOf(input.inside, held, settings.limitC),
      gaps: gapsOf(state, held, counts, unknown, pauses),
      ...{ corrections: [], alerts: [], met: null, cost: null },
    },
  };
}

/** Whole minutes of a length, as reports say it. */
export function minutesOf(lengthMs: number): number {
  return Math.round(lengthMs / 60_000);
}

function heldOf(state: BoothState, near: readonly Booking[], bookingId: string): BookedTime | null {
  const windows = bookingWindows(near, state);
  return windows.find(({ booking }) => booking?.bookingId === bookingId)?.booking ?? null;
}
