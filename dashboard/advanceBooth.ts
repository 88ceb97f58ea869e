import type { Booking, BoothView, Outlook, StoredItem } from "@boothward/shared-types";
import type { Alert } from "./alerts/alert.ts";
import { isClockDoubtful } from "./alerts/judgeMachine.ts";
import { alertViews } from "./alerts/alertViews.ts";
import { healthOf } from "./alerts/healthOf.ts";
import { hearingOf, type Reach, type Scene } from "./alerts/scene.ts";
import { stepBooth, type AlertOrder, type AlertsStepped } from "./alerts/stepBooth.ts";
import type { Trust } from "./alerts/trust.ts";
import { bookingWindows, isOpenAt, type BookedTime, type BookedWindow } from "./booth/bookingWindows.ts";
import { boothView } from "./booth/boothView.ts";
import type { BoothSettings } from "./booth/boothSettings.ts";
import type { BoothState } from "./booth/boothState.ts";
import { tallyOf } from "./booth/tally.ts";
import { foldItems, type LoadSince, type Timeline } from "./booth/timeline.ts";
import type { PastEvening } from "./forecast/demand/demandInput.ts";
import {
  isSameAhead,
  isSameHeat,
  outlookOf,
  sunsetAtMs,
  withHeatNow,
  type OutlookMemo,
} from "./forecast/index.ts";
import type { Presence } from "./ingest/presences.ts";

/** What is kept of a booth from one moment to the next; all of it can be had again from the store. */
export type BoothRun = {
  readonly timeline: Timeline;
  readonly alerts: readonly Alert[];
  /** The last look ahead and what it was made of; null before the first. */
  readonly lookedAhead: LookedAhead | null;
};

/** The memo makes the next look cheap. */
type LookedAhead = LookAheadFrom & { readonly outlook: Outlook; readonly memo: OutlookMemo };
type LookAheadFrom = {
  readonly past: readonly PastEvening[];
  readonly state: BoothState;
  readonly bookings: readonly Booking[];
  readonly settings: BoothSettings;
  readonly bookingId: string | null;
};

/** What else a booth's moment is made of. */
export type BoothInputs = {
  /** On disk already, in any order. */
  readonly newItems: readonly StoredItem[];
  readonly settings: BoothSettings;
  readonly bookings: readonly Booking[];
  /** Earlier evenings of a kind, as far as they are known now. */
  readonly pastOf: (eventKind: string, isInvented: boolean) => readonly PastEvening[];
  readonly presence: Presence;
  readonly keptAside: number;
  /** When this dashboard began: agents need a while to come back to it. */
  readonly listeningFromAtMs: number;
  /** How the business wants to hear, and whom it can reach at this booth. */
  readonly orderOf: (booking: BookedTime | null) => AlertOrder & { readonly reach: Reach };
  /** How far alerts of what is only foreseen are trusted. */
  readonly trust: Trust;
  readonly atMs: number;
};

export type BoothWorld = {
  readonly loadSince: LoadSince;
  readonly newId: () => string;
  /** Resolves when alerts, history and notices are on disk, all together. */
  readonly saveAlerts: (before: readonly Alert[], stepped: AlertsStepped, scene: Scene) => Promise<void>;
};

/**
 * While nothing that it is made of changes, an outlook is good for so long: it is the dearest part of a step, and
 * hundreds of booths are stepped each second. Before the doors open and after they close it moves slower still.
 */
const goodForMs = { open: 15_000, closed: 60_000 };

/**
 * Takes a booth to this moment: folds what is new, looks ahead, judges, steps the alerts and stores them, and
 * gives the view for the pages. Alerts are judged at `atMs` only: items that come late raise none late.
 */
export async function advanceBooth(
  run: BoothRun,
  inputs: BoothInputs,
  world: BoothWorld,
): Promise<{ run: BoothRun; view: BoothView }> {
  const { settings, bookings, presence, atMs } = inputs;
  const timeline = await foldItems(run.timeline, inputs.newItems, world.loadSince);
  const { state } = timeline;
  const window = windowAt(bookingWindows(bookings, state), atMs);
  const { booking } = window;
  const past = booking === null ? noEvenings : inputs.pastOf(booking.eventKind, isInvented(state));
  const from = { state, bookings, settings, past, bookingId: booking?.bookingId ?? null };
  const lookedAhead = lookAhead(run.lookedAhead, from, booking, atMs);
  const { outlook } = lookedAhead;
  const { heardAtMs } = presence;
  const { listeningFromAtMs } = inputs;
  const shown = boothView({
    ...{ state, outlook, booking, atMs, booth: settings },
    counts: tallyOf(state, window, atMs),
    ...{ heardAtMs, isLinked: presence.isLinked },
    clockOffMs: presence.clockOffMs,
    keptAside: inputs.keptAside,
    sunsetAtMs: sunsetOf(booking),
    // Judged from what is shown, below.
    ...{ alerts: [], health: "unknown" },
  });
  const heard = { heardAtMs, listeningFromAtMs, atMs };
  const { reach, ...order } = inputs.orderOf(booking);
  const scene: Scene = {
    ...{ state, outlook, shown, booking, settings, ...heard, reach, trust: inputs.trust },
    clockDoubtfulAtMs: presence.clockDoubtfulAtMs,
  };
  const stepped = stepBooth(run.alerts, scene, order, world.newId);
  await world.saveAlerts(run.alerts, stepped, scene);
  const alerts = stepped.living;
  const views = alertViews(alerts, hearingOf(scene) === "heard", atMs);
  const health = healthOf({ ...scene, alerts: views });
  const faults = [...shown.faults, ...clockFault(inputs)];
  return { run: { timeline, alerts, lookedAhead }, view: { ...shown, alerts: views, health, faults } };
}

/** The window an instant lies in; the windows leave no gap. */
export function windowAt(windows: readonly BookedWindow[], atMs: number): BookedWindow {
  const window = windows.find(({ fromAtMs, toAtMs }) => fromAtMs <= atMs && atMs < toAtMs);
  if (window === undefined) throw new Error(`no window holds the instant ${atMs}`);
  return window;
}

const noEvenings: readonly PastEvening[] = [];

/** Whether the booth plays an invented day. */
export function isInvented({ agent }: Pick<BoothState, "agent">): boolean {
  return agent !== null && agent.scenario !== null;
}

/** The outlook at this moment, or the last one while nothing it is made of has changed and it is not old. */
function lookAhead(
  last: LookedAhead | null,
  from: LookAheadFrom,
  booking: BookedTime | null,
  atMs: number,
): LookedAhead {
  const isSame =
    last !== null &&
    isSameToForecast(last.state, from.state) &&
    last.bookings === from.bookings &&
    last.settings === from.settings &&
    last.past === from.past &&
    last.bookingId === from.bookingId;
  const goodMs = booking !== null && isOpenAt(booking, atMs) ? goodForMs.open : goodForMs.closed;
  if (!isSame || Math.abs(atMs - last.outlook.atMs) >= goodMs)
    return { ...from, ...outlookOf(from.state, booking, from.settings, atMs, from.past, last?.memo ?? null) };
  if (isSameHeat(last.state, from.state)) return last;
  return { ...from, ...withHeatNow(last, from.state, booking, from.settings, atMs) };
}

/** The plan moves with the facts of readiness and extension. */
function isSameToForecast(a: BoothState, b: BoothState): boolean {
  return isSameAhead(a, b) && a.readiness === b.readiness && a.extensions === b.extensions;
}

function sunsetOf(booking: BookedTime | null): number | null {
  if (booking === null) return null;
  const { latitudeDeg, longitudeDeg, openAtMs, zone } = booking;
  if (latitudeDeg === null || longitudeDeg === null) return null;
  return sunsetAtMs({ latitudeDeg, longitudeDeg }, openAtMs, zone);
}

/** A clock in doubt is said like a source without a value, [T5]. */
function clockFault({ presence: { clockDoubtfulAtMs }, atMs }: BoothInputs): BoothView["faults"] {
  if (!isClockDoubtful(clockDoubtfulAtMs, atMs)) return [];
  const detail = "it claimed times that have not come yet; those items were placed at their arrival";
  return [{ source: "clock", fault: "unreadable", detail, sinceAtMs: clockDoubtfulAtMs }];
}
