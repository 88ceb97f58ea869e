import { noReports } from "./stubReports.ts";
import { noStanding, nothingPlanned, type Booking } from "@boothward/shared-types";
import type { BoothEvening, BoothView } from "@boothward/shared-types/view";
import {
  aBookingView,
  aBoothView,
  anInsideView,
  aMediaView,
  aPrinterView,
  aTally,
  hourMs,
  minuteMs,
} from "../support/aBoothView.ts";
import { anOutlook } from "../support/anOutlook.ts";
import { aReplayView } from "../support/aReplayView.ts";
import { playedEvening, playedWhatIfs, sheetsPerSession } from "./playedEvening.ts";
import type { Evening } from "./playedEvening.ts";
import { noPeople } from "./stubPeople.ts";
import type { BoothEntry, StubState } from "./stubApi.ts";

/** Midnight in Berlin before an invented Saturday. */
const dayAtMs = Date.UTC(2026, 5, 19, 22, 0);
/** The instant of a clock time on that Saturday; 24:00 is its midnight. */
export const at = (clock: string): number => {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return dayAtMs + hours * hourMs + minutes * minuteMs;
};

/** A demand that swells and ebbs about `mean`, with a lull around the given time. */
const demand = (mean: number, lullAtMs: number) => (atMs: number) =>
  mean *
  (1 + 0.25 * Math.sin(atMs / (37 * minuteMs))) *
  (Math.abs(atMs - lullAtMs) < 15 * minuteMs ? 0.2 : 1);

/** One booth at one event of that Saturday. */
export type Plan = {
  name: string;
  place: string;
  client: string;
  eventKind: string;
  attendant: string;
  isTrailer: boolean;
  open: string;
  close: string;
  start: number;
  mean: number;
  changes: string[];
  spares: number;
};

export const juniper: Plan = {
  name: "Juniper",
  place: "Quarry Barn",
  client: "Fern and Rowan",
  eventKind: "wedding",
  attendant: "Ama Quill",
  isTrailer: false,
  open: "17:00",
  close: "23:00",
  start: 300,
  mean: 33,
  changes: [],
  spares: 1,
};

export const marigold: Plan = {
  name: "Marigold",
  place: "Tidemark Hall",
  client: "Harbour Choir",
  eventKind: "gala",
  attendant: "Ben Tansy",
  isTrailer: false,
  open: "18:00",
  close: "23:30",
  start: 300,
  mean: 34,
  changes: [],
  spares: 1,
};

export const thistle: Plan = {
  name: "Thistle",
  place: "Lanternfish Rooms",
  client: "Little Oak Theatre",
  eventKind: "party",
  attendant: "Ben Tansy",
  isTrailer: false,
  open: "19:00",
  close: "24:00",
  start: 300,
  mean: 40,
  changes: [],
  spares: 1,
};

export const sorrel: Plan = {
  name: "Sorrel",
  place: "Applewick Green",
  client: "Applewick Summer Fair",
  eventKind: "public",
  attendant: "Ama Quill",
  isTrailer: true,
  open: "15:00",
  close: "22:00",
  start: 100,
  mean: 46,
  changes: ["16:30"],
  spares: 1,
};

export const plans = [juniper, marigold, thistle, sorrel];

/** The evening of a plan, as it stands at a moment. */
function eveningPlan(its: Plan, nowMs: number): Evening {
  const lullAtMs = at("20:30");
  return {
    ...{ openAtMs: at(its.open), closeAtMs: at(its.close), nowMs, kitSheets: 300, startSheets: its.start },
    changesAtMs: its.changes.map(at).filter((changeAtMs) => changeAtMs <= nowMs),
    sheetsPerHour: demand(its.mean, lullAtMs),
    ...{ lullAtMs, spares: its.spares, unsure: 0.2 },
  };
}

/** A booth of the plan at a moment, all well. */
export function boothAt(plan: Plan, nowMs: number, over: Partial<Plan> = {}): BoothView {
  const its = { ...plan, ...over };
  const evening = playedEvening(eveningPlan(its, nowMs));
  const used = Math.round(evening.past.length === 0 ? 0 : (its.mean * (nowMs - at(its.open))) / hourMs);
  return aBoothView({
    boothId: its.name.toLowerCase(),
    name: its.name,
    isTrailer: its.isTrailer,
    heardAtMs: nowMs - 2000 - 1000 * (its.name.length % 5),
    booking: aBookingView({
      bookingId: `booking-${its.name.toLowerCase()}`,
      client: its.client,
      place: its.place,
      eventKind: its.eventKind,
      openAtMs: at(its.open),
      closeAtMs: at(its.close),
      attendant: its.attendant,
      sunsetAtMs: at("21:32"),
    }),
    media: aMediaView({
      sheetsLeft: evening.sheetsLeft,
      lowSheets: evening.sheetsLeft,
      highSheets: evening.sheetsLeft,
      figure: its.name === "Marigold" ? "counted" : "metered",
      atMs: nowMs - minuteMs,
      rollFittedAtMs: evening.rollChangesAtMs.at(-1) ?? null,
      spareRolls: its.spares,
      said: evening.rollChangesAtMs.map((atMs, i) => ({
        ...{ bootId: "person", seq: i + 1, kind: "rollFitted", atMs, sheets: 300 },
        ...{ by: its.attendant, isTakenBack: false },
      })),
    }),
    printer: aPrinterView({ sinceAtMs: nowMs - 20 * minuteMs }),
    inside: anInsideView({
      insideC: its.isTrailer ? 34.6 : 26.2,
      atMs: nowMs - 15_000,
      per15MinC: its.isTrailer ? 0.8 : 0.1,
      outsideC: its.isTrailer ? 28.1 : null,
    }),
    power: { isOnMains: true, batteryPct: null, sinceAtMs: at("14:00") },
    counts: aTally({
      sessions: Math.max(0, Math.round(used / sheetsPerSession)),
      pitches: Math.max(0, used),
    }),
    past: evening.past,
    rollChangesAtMs: evening.rollChangesAtMs,
    outlook: anOutlook(nowMs, evening.media),
  });
}

function eveningOf(plan: Plan, nowMs: number, booth: BoothView | undefined): BoothEvening {
  const knownAtMs = booth?.health === "silent" ? (booth.heardAtMs ?? nowMs) : nowMs;
  const left = booth?.media?.sheetsLeft ?? plan.start;
  return eveningAt(plan, knownAtMs, booth?.inside?.insideC ?? 26, left);
}

function eveningAt(plan: Plan, nowMs: number, insideC: number, sheetsLeft: number): BoothEvening {
  const openAtMs = at(plan.open);
  const quarterCount = Math.max(0, Math.ceil((nowMs - openAtMs) / (15 * minuteMs)));
  const rate = demand(plan.mean, at("20:30"));
  return {
    boothId: plan.name.toLowerCase(),
    fromAtMs: openAtMs,
    toAtMs: at(plan.close),
    inside: Array.from({ length: 150 }, (_, i) => {
      const atMs = nowMs - (149 - i) * minuteMs;
      return { atMs, insideC: insideC - 5 * (1 - i / 149) ** 2 + 0.3 * Math.sin(i / 7) };
    }),
    quarters: Array.from({ length: quarterCount }, (_, i) => {
      const atMs = openAtMs + i * 15 * minuteMs;
      const pitches = Math.round(rate(atMs + 7 * minuteMs) / 4);
      return { atMs, sessions: Math.round(pitches / sheetsPerSession), pitches };
    }),
    stops: [],
    whatIfs: playedWhatIfs({
      ...eveningPlan(plan, nowMs),
      openAtMs: Math.max(nowMs, openAtMs),
      startSheets: sheetsLeft,
    }),
  };
}

function entryOf(plan: Plan): BoothEntry {
  return {
    boothId: plan.name.toLowerCase(),
    name: plan.name,
    isTrailer: plan.isTrailer,
    kitSheets: 300,
    limitC: 40,
    box: null,
    agent: {
      agentId: `agent-${plan.name.toLowerCase()}`,
      hostName: `${plan.name.toLowerCase()}-tablet`,
      pairedAtMs: at("13:20"),
      isLinked: true,
    },
  };
}

function bookingOf(plan: Plan): Booking {
  return {
    bookingId: `booking-${plan.name.toLowerCase()}`,
    boothId: plan.name.toLowerCase(),
    client: plan.client,
    place: plan.place,
    eventKind: plan.eventKind,
    zone: "Europe/Berlin",
    latitudeDeg: null,
    longitudeDeg: null,
    openAtMs: at(plan.open),
    closeAtMs: at(plan.close),
    guests: 140,
    sheetsLoaded: plan.start,
    spareRolls: 1,
    attendant: plan.attendant,
    standing: noStanding,
    ...nothingPlanned,
  };
}

/** An evening of the Saturday before, for how the forecast did. */
const before: Booking = {
  ...bookingOf(juniper),
  bookingId: "booking-past",
  client: "Brook Library",
  place: "Old Mill",
  eventKind: "party",
  openAtMs: at("18:00") - 7 * 24 * hourMs,
  closeAtMs: at("23:00") - 7 * 24 * hourMs,
};

/** What a dashboard says at a moment of that Saturday. */
export function stateOf(nowMs: number, booths: readonly BoothView[]): StubState {
  return {
    nowMs,
    booths,
    entries: plans.map(entryOf),
    bookings: [...plans.map(bookingOf), before],
    replays: [aReplayView()],
    evenings: plans.map((plan) =>
      eveningOf(
        plan,
        nowMs,
        booths.find((booth) => booth.name === plan.name),
      ),
    ),
    signedIn: { name: "Ama Quill", role: "owner" },
    ...noPeople(),
    ticks: [],
    setUp: {},
    stock: null,
    reports: noReports,
    isFirstRun: false,
  };
}
