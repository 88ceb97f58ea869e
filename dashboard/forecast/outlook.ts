import type { Outlook, WhatIf } from "@boothward/shared-types";
import { isOpenAt, type BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import type { BoothState } from "../booth/boothState.ts";
import { mediaNow, type MediaFacts } from "../booth/mediaNow.ts";
import { rollsAboard } from "../booth/rollsAboard.ts";
import { demandInputOf, type DemandFacts } from "./demandInputOf.ts";
import type { PastEvening } from "./demand/demandInput.ts";
import type { DemandRun } from "./demand/demandRun.ts";
import { forecastDemand } from "./demand/forecastDemand.ts";
import type { SensorMemo } from "./heat/sensorHeat.ts";
import { heatAheadOf } from "./heatAhead.ts";
import { idleAhead } from "./idleAhead.ts";
import { changeAdvice } from "./media/changeAdvice.ts";
import { paperAhead, sheetsPerHourNow } from "./media/paperAhead.ts";
import { paperCourse } from "./media/paperCourse.ts";
import { rationing } from "./media/rationing.ts";
import { rollsToClose, sheetsAboard, type Aboard } from "./media/rollsToClose.ts";
import { extra, whatIfs } from "./media/whatIfs.ts";
import { printerAhead } from "./printerAhead.ts";
import { waitsOf } from "./queue/waitsOf.ts";
import { sunAheadOf, type SunMemo } from "./sunAhead.ts";

/** The parts of a booth's state that an outlook is made of. */
export type OutlookState = DemandFacts & MediaFacts & Pick<BoothState, "readings" | "readiness">;

/** Whether two states give the same outlook of the paper: a temperature alone uses up none. */
export function isSameAhead(a: OutlookState, b: OutlookState): boolean {
  const parts = ["bins", "counts", "media", "printing", "faults", "agent"] as const;
  return parts.every((part) => a[part] === b[part]) && a.readings.queues === b.readings.queues;
}

/** What looking ahead keeps from one look to the next: it saves time and changes no answer. */
export type OutlookMemo = {
  readonly demand: DemandRun | null;
  readonly heat: readonly SensorMemo[];
  readonly sun: SunMemo | null;
  readonly idle: DemandRun | null;
};

/** An outlook, and the memo to hand in with the next one. */
export type LookedAhead = { readonly outlook: Outlook; readonly memo: OutlookMemo };

const minuteMs = 60_000;

/**
 * All forecasts of a booth at one moment: the paper until the close, the temperature of the next hour, the sun on
 * the printer. Depends on its arguments alone, `before` left aside.
 *
 * `past` are earlier evenings of the same kind; `before` is the memo of the outlook before, or null.
 */
export function outlookOf(
  state: OutlookState,
  booking: BookedTime | null,
  settings: BoothSettings,
  atMs: number,
  past: readonly PastEvening[],
  before: OutlookMemo | null,
): LookedAhead {
  const { media, run, printer } = mediaAhead(state, booking, settings, atMs, past, before?.demand ?? null);
  const { heat, memo } = heatAheadOf(state, booking, settings, atMs, before?.heat ?? []);
  const sun = sunAheadOf(booking, settings, before?.sun ?? null);
  const { idle, run: idleRun } = idleSpellOf(state, booking, atMs, past, before?.idle ?? null);
  const outlook = { atMs, media, heat, sun: sun?.sun ?? null, idle, printer };
  return { outlook, memo: { demand: run, heat: memo, sun, idle: idleRun } };
}

function idleSpellOf(
  state: OutlookState,
  booking: BookedTime | null,
  atMs: number,
  past: readonly PastEvening[],
  before: DemandRun | null,
): { readonly idle: Outlook["idle"]; readonly run: DemandRun | null } {
  if (booking === null || !isOpenAt(booking, atMs)) return { idle: null, run: before };
  return idleAhead(demandInputOf(state, booking, past), state.readiness, atMs, before);
}

/** The same outlook with the temperature looked at anew. */
export function withHeatNow(
  { outlook, memo: before }: LookedAhead,
  state: Pick<BoothState, "readings">,
  booking: BookedTime | null,
  settings: BoothSettings,
  atMs: number,
): LookedAhead {
  const { heat, memo } = heatAheadOf(state, booking, settings, atMs, before.heat);
  return { outlook: { ...outlook, heat }, memo: { ...before, heat: memo } };
}

/**
 * How many sheets are left until the close, when the roll is empty, the chance that it lasts, and what follows from
 * it. Null without a booking, and with nothing known of the roll.
 */
function mediaAhead(
  state: OutlookState,
  booking: BookedTime | null,
  settings: BoothSettings,
  atMs: number,
  past: readonly PastEvening[],
  before: DemandRun | null,
): Pick<Outlook, "media" | "printer"> & { readonly run: DemandRun | null } {
  const media = booking === null ? null : mediaNow(state, settings, booking);
  if (booking === null || media === null) return { media: null, printer: null, run: before };
  const input = demandInputOf(state, booking, past);
  const { run, ahead } = forecastDemand(before, input, atMs, booking.closeAtMs);
  const aboard = aboardOf(state, booking, settings);
  const { sheetsLeft } = media;
  const seen = {
    sheetsPerHour: sheetsPerHourNow(ahead, booking.openAtMs),
    ...paperAhead(paperCourse(ahead, media), media, booking.closeAtMs),
    basis: ahead.basis,
    change: changeAdvice(ahead, sheetsLeft, aboard.spareRolls),
    rationing: rationing(ahead, sheetsAboard(sheetsLeft, aboard) ?? sheetsLeft),
    rolls: rollsToClose(ahead, ahead.stepsAtMs.length - 1, media, aboard),
    waits: waitsOf(state, booking, ahead),
  };
  const pace = { sheetsPerHour: seen.sheetsPerHour, sheetsPerSession: ahead.sheetsPerSession };
  return { media: seen, printer: printerAhead(state, booking, input, pace, atMs), run };
}

/**
 * What the paper would do if the evening went on for 15 to 120 minutes more, or each session took one print from
 * now on; empty where nothing can be forecast. Dearer than an outlook: for a page that asks.
 */
export function whatIfsOf(
  state: OutlookState,
  booking: BookedTime | null,
  settings: BoothSettings,
  atMs: number,
  past: readonly PastEvening[],
  before: OutlookMemo | null,
): WhatIf[] {
  const media = booking === null ? null : mediaNow(state, settings, booking);
  if (booking === null || media === null) return [];
  const { closeAtMs } = booking;
  const input = demandInputOf(state, booking, past);
  const { ahead } = forecastDemand(before?.demand ?? null, input, atMs, closeAtMs + extra.mostMin * minuteMs);
  return whatIfs(ahead, media, aboardOf(state, booking, settings), closeAtMs);
}

function aboardOf(state: OutlookState, booking: BookedTime, settings: BoothSettings): Aboard {
  const { spares, partials } = rollsAboard(state, settings, booking);
  return { kitSheets: settings.kitSheets, spareRolls: spares, partialRolls: partials };
}
