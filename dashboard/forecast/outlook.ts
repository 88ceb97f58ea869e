import type { Outlook, WhatIf } from "@boothward/shared-types";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import type { BoothState } from "../booth/boothState.ts";
import { mediaNow, type MediaFacts } from "../booth/mediaNow.ts";
import { rollsAboard } from "../booth/rollsAboard.ts";
import { demandInputOf, type DemandFacts } from "./demandInputOf.ts";
import type { PastEvening } from "./demand/demandInput.ts";
import type { DemandRun } from "./demand/demandRun.ts";
import { forecastDemand } from "./demand/forecastDemand.ts";
import { changeAdvice } from "./media/changeAdvice.ts";
import { paperAhead, sheetsPerHourNow } from "./media/paperAhead.ts";
import { paperCourse } from "./media/paperCourse.ts";
import { rationing } from "./media/rationing.ts";
import { rollsToClose, sheetsAboard, type Aboard } from "./media/rollsToClose.ts";
import { extra, whatIfs } from "./media/whatIfs.ts";
import { waitsOf } from "./queue/waitsOf.ts";

/** The parts of a booth's state that an outlook is made of. */
export type OutlookState = DemandFacts & MediaFacts & Pick<BoothState, "readings">;

/** Whether two states give the same outlook at an instant: a temperature alone uses up no paper. */
export function isSameAhead(a: OutlookState, b: OutlookState): boolean {
  const parts = ["bins", "counts", "media", "printing", "faults", "agent"] as const;
  return parts.every((part) => a[part] === b[part]) && a.readings.queues === b.readings.queues;
}

/** An outlook, and the forecast's memo to hand in with the next one: it saves time and changes no answer. */
export type LookedAhead = { readonly outlook: Outlook; readonly run: DemandRun | null };

const minuteMs = 60_000;

/**
 * All forecasts of a booth at one moment: how many sheets are left until the close, when the roll is empty, the
 * chance that it lasts, and what follows from it. Depends on its arguments alone, `before` left aside.
 *
 * `media` is null without a booking, and with nothing known of the roll. `past` are earlier evenings of the
 * same kind; `before` is the run of the outlook before, or null.
 */
export function outlookOf(
  state: OutlookState,
  booking: BookedTime | null,
  settings: BoothSettings,
  atMs: number,
  past: readonly PastEvening[],
  before: DemandRun | null,
): LookedAhead {
  const media = booking === null ? null : mediaNow(state, settings, booking);
  if (booking === null || media === null) return { outlook: { atMs, media: null }, run: before };
  const input = demandInputOf(state, booking, past);
  const { run, ahead } = forecastDemand(before, input, atMs, booking.closeAtMs);
  const aboard = aboardOf(state, booking, settings);
  const { sheetsLeft } = media;
  const outlook: Outlook = {
    atMs,
    media: {
      sheetsPerHour: sheetsPerHourNow(ahead, booking.openAtMs),
      ...paperAhead(paperCourse(ahead, media), media, booking.closeAtMs),
      basis: ahead.basis,
      change: changeAdvice(ahead, sheetsLeft, aboard.spareRolls),
      rationing: rationing(ahead, sheetsAboard(sheetsLeft, aboard) ?? sheetsLeft),
      rolls: rollsToClose(ahead, ahead.stepsAtMs.length - 1, media, aboard),
      waits: waitsOf(state, booking, ahead),
    },
  };
  return { outlook, run };
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
  before: DemandRun | null,
): WhatIf[] {
  const media = booking === null ? null : mediaNow(state, settings, booking);
  if (booking === null || media === null) return [];
  const { closeAtMs } = booking;
  const input = demandInputOf(state, booking, past);
  const { ahead } = forecastDemand(before, input, atMs, closeAtMs + extra.mostMin * minuteMs);
  return whatIfs(ahead, media, aboardOf(state, booking, settings), closeAtMs);
}

function aboardOf(state: OutlookState, booking: BookedTime, settings: BoothSettings): Aboard {
  const { spares, partials } = rollsAboard(state, settings, booking);
  return { kitSheets: settings.kitSheets, spareRolls: spares, partialRolls: partials };
}
