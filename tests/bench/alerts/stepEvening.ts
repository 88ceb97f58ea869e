import { noticeSettings, type Booking, type StoredItem } from "@boothward/shared-types";
import { windowAt } from "../../../dashboard/advanceBooth.ts";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { noTrouble } from "../../../dashboard/alerts/ownTrouble.ts";
import { stepBooth, type AlertOrder, type AlertsStepped } from "../../../dashboard/alerts/stepBooth.ts";
import { trustOf } from "../../../dashboard/alerts/trust.ts";
import { bookingWindows, isOpenAt } from "../../../dashboard/booth/bookingWindows.ts";
import { boothView } from "../../../dashboard/booth/boothView.ts";
import { tallyOf } from "../../../dashboard/booth/tally.ts";
import { emptyTimeline, foldItems, type Timeline } from "../../../dashboard/booth/timeline.ts";
import { outlookOf, type OutlookMemo } from "../../../dashboard/forecast/index.ts";
import type { Evening } from "./evening.ts";

/** A booth between two steps. */
export type Standing = {
  readonly timeline: Timeline;
  readonly alerts: readonly Alert[];
  readonly ahead: ReturnType<typeof outlookOf> | null;
};

/** What a step is given beside it. */
export type Moment = {
  readonly atMs: number;
  readonly heardAtMs: number;
  readonly isLinked: boolean;
  readonly newItems: readonly StoredItem[];
  readonly stored: readonly StoredItem[];
  readonly newId: () => string;
  readonly pace: Pace;
};

const order: AlertOrder = { routing: noticeSettings.parse({}), rulesOff: new Set(), own: noTrouble };
const reach = { hasOwner: true, hasAttendant: true };

/** Three events are behind them, and nothing is scored: forecasts may say "now". */
const trust = trustOf(3, {});

/** How often a booth is looked at, and how often at what lies ahead of it, which is the dearest part. */
export type Pace = { readonly tickMs: number; readonly lookEveryMs: number };

/** The dashboard looks each second, and ahead four times a minute. */
export const usualPace: Pace = { tickMs: 10_000, lookEveryMs: 60_000 };

/** Before the doors open little moves. */
const closedTimes = 5;

export function nothingYet(boothId: string): Standing {
  return { timeline: emptyTimeline(boothId), alerts: [], ahead: null };
}

/** What the dashboard does with a booth at a moment, without store, wire and clock. */
export async function stepEvening(
  before: Standing,
  { settings, booking: planned, startAtMs }: Evening,
  moment: Moment,
): Promise<{ readonly after: Standing; readonly stepped: AlertsStepped }> {
  const { atMs, heardAtMs, isLinked, newItems, stored, newId, pace } = moment;
  const timeline = await foldItems(before.timeline, newItems, (fromAtMs) =>
    stored.filter((item) => item.atMs >= fromAtMs),
  );
  const { state } = timeline;
  const window = windowAt(bookingWindows([planned satisfies Booking], state), atMs);
  const { booking } = window;
  const isOpen = booking !== null && isOpenAt(booking, atMs);
  const goodMs = isOpen ? pace.lookEveryMs : closedTimes * pace.lookEveryMs;
  const isGood = before.ahead !== null && atMs - before.ahead.outlook.atMs < goodMs;
  const memo: OutlookMemo | null = before.ahead?.memo ?? null;
  const ahead =
    isGood && before.ahead !== null ? before.ahead : outlookOf(state, booking, settings, atMs, [], memo);
  const { outlook } = ahead;
  const shown = boothView({
    ...{ state, outlook, booking, atMs, heardAtMs, isLinked, booth: settings },
    ...{ counts: tallyOf(state, window, atMs), clockOffMs: 0, keptAside: 0, sunsetAtMs: null },
    ...{ alerts: [], health: "unknown" },
  });
  const scene = {
    ...{ state, outlook, shown, booking, settings, heardAtMs, atMs, trust },
    ...{ listeningFromAtMs: startAtMs - 3_600_000, reach, clockDoubtfulAtMs: null },
  };
  const stepped = stepBooth(before.alerts, scene, order, newId);
  return { after: { timeline, alerts: stepped.living, ahead }, stepped };
}
