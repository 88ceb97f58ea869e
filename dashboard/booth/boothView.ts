import type { AlertView, BoothView, Health, LeftPoint, Outlook, Tally } from "@boothward/shared-types";
import type { BookedTime } from "./bookingWindows.ts";
import type { BoothSettings } from "./boothSettings.ts";
import type { BoothState } from "./boothState.ts";
import { fittedAt } from "./fittedAt.ts";
import { insideNow } from "./insideNow.ts";
import { loadedBase, mediaAt, mediaNow } from "./mediaNow.ts";
import { mediaQuestion } from "./mediaQuestion.ts";
import { mediaSaid } from "./mediaSaid.ts";
import { printerNow } from "./printerNow.ts";
import { rollsAboard } from "./rollsAboard.ts";
import { stalledSince } from "./stalledSince.ts";

/** What a booth's view is made of; each part is made elsewhere. */
export type BoothScene = {
  readonly state: BoothState;
  readonly outlook: Outlook;
  readonly alerts: readonly AlertView[];
  readonly booth: BoothSettings;
  readonly booking: BookedTime | null;
  /** Of the present booking. */
  readonly counts: Tally;
  readonly isLinked: boolean;
  readonly heardAtMs: number | null;
  readonly clockOffMs: number | null;
  readonly keptAside: number;
  readonly sunsetAtMs: number | null;
  readonly health: Health;
  readonly atMs: number;
};

/** As many points as a phone's width can show apart. */
const mostPastPoints = 120;

/** Without a booking the last evening's length is drawn. */
const pastWithoutBookingMs = 6 * 3_600_000;

/** A booth as the page shows it: numbers and words of code, the sentences are made there. */
export function boothView(scene: BoothScene): BoothView {
  const { state, booth, booking, atMs } = scene;
  const fromAtMs = pastFrom(scene);
  return {
    boothId: booth.boothId,
    name: booth.name,
    isTrailer: booth.isTrailer,
    kitSheets: booth.kitSheets,
    limitC: booth.limitC,
    box: booth.box,
    scenario: state.agent?.scenario ?? null,
    health: scene.health,
    heardAtMs: scene.heardAtMs,
    isLinked: scene.isLinked,
    booking: booking === null ? null : bookingView(booking, scene.sunsetAtMs),
    media: mediaView(scene),
    printer: printerView(state, atMs),
    inside: insideView(state),
    power: powerView(state),
    counts: scene.counts,
    past: pastOf(scene, fromAtMs),
    rollChangesAtMs: fittedAt(state).filter((each) => each >= fromAtMs),
    outlook: scene.outlook,
    alerts: [...scene.alerts],
    faults: state.faults.map((fault) => ({ ...fault })),
    clockOffMs: scene.clockOffMs,
    keptAside: scene.keptAside,
  };
}

/** At most `most` points: the first, the last, and of the others the lowest of each stretch of time. */
export function thinPoints(points: readonly LeftPoint[], most: number): LeftPoint[] {
  if (points.length <= most) return [...points];
  const inner = points.slice(1, -1);
  const perGroup = Math.ceil(inner.length / ((most - 2) / 2));
  const groups = Array.from({ length: Math.ceil(inner.length / perGroup) }, (_, at) =>
    inner.slice(at * perGroup, (at + 1) * perGroup),
  );
  return [...points.slice(0, 1), ...groups.flatMap(extremes), ...points.slice(-1)];
}

/** The lowest and the highest point, in the order of time: a roll change stays a step. */
function extremes(group: readonly LeftPoint[]): readonly LeftPoint[] {
  const low = group.reduce((a, b) => (b.sheetsLeft < a.sheetsLeft ? b : a));
  const high = group.reduce((a, b) => (b.sheetsLeft > a.sheetsLeft ? b : a));
  return group.filter((point) => point === low || point === high);
}

function pastFrom({ booking, atMs }: BoothScene): number {
  return booking?.fromAtMs ?? atMs - pastWithoutBookingMs;
}

function pastOf({ state, booth, booking, atMs }: BoothScene, fromAtMs: number): LeftPoint[] {
  const loaded = loadedBase(state, booking);
  const seen = state.media.trail.filter((point) => point.atMs >= fromAtMs && point.atMs <= atMs);
  const points = seen.flatMap((point) => {
    const media = mediaAt(point.marks, loaded, booth);
    return media === null ? [] : [{ atMs: point.atMs, sheetsLeft: media.sheetsLeft }];
  });
  return thinPoints(points, mostPastPoints);
}

function bookingView(booking: BookedTime, sunsetAtMs: number | null): BoothView["booking"] {
  const { bookingId, client, place, eventKind, zone, openAtMs, closeAtMs } = booking;
  const { guests, spareRolls, attendant, latitudeDeg, longitudeDeg, standing } = booking;
  return {
    ...{ bookingId, client, place, eventKind, zone, openAtMs, closeAtMs },
    ...{ guests, latitudeDeg, longitudeDeg, standing, spareRolls, attendant, sunsetAtMs },
  };
}

function mediaView(scene: BoothScene): BoothView["media"] {
  const { state, booth, booking } = scene;
  const media = mediaNow(state, booth, booking);
  if (media === null) return null;
  const { sheetsLeft, lowSheets, highSheets, figure, confirmedBy, atMs } = media;
  const { spares, partials } = rollsAboard(state, booth, booking);
  return {
    ...{ sheetsLeft, lowSheets, highSheets, figure, confirmedBy, atMs },
    rollFittedAtMs: fittedAt(state).at(-1) ?? null,
    ...{ spareRolls: spares, partialRolls: [...partials] },
    question: mediaQuestion(state, booth, booking),
    said: mediaSaid(state.words, pastFrom(scene)),
  };
}

function printerView(state: BoothState, atMs: number): BoothView["printer"] {
  const printer = printerNow(state, atMs);
  if (printer === null) return null;
  const { sinceAtMs, queuedJobs } = printer;
  return {
    state: printer.state,
    reasons: [...printer.reasons],
    ...{ sinceAtMs, queuedJobs, stalledSinceAtMs: stalledSince(state, atMs) },
  };
}

function insideView(state: BoothState): BoothView["inside"] {
  const inside = insideNow(state);
  if (inside === null) return null;
  const { insideC, atMs, per15MinC, outsideC, humidityPct } = inside;
  return { insideC, atMs, per15MinC, outsideC, humidityPct };
}

function powerView({ power, readings }: BoothState): BoothView["power"] {
  if (power === null) return null;
  const isNewer = readings.host !== null && readings.host.atMs > power.atMs;
  const batteryPct = (isNewer ? readings.host?.batteryPct : null) ?? power.batteryPct;
  return { isOnMains: power.isOnMains, batteryPct, sinceAtMs: power.sinceAtMs };
}
