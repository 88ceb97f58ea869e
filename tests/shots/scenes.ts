import type { AlertView, BoothView } from "@boothward/shared-types/view";
import {
  aBoothView,
  aMediaView,
  anAlertView,
  anInsideView,
  aPrinterView,
  minuteMs,
} from "../support/aBoothView.ts";
import { anOutlook } from "../support/anOutlook.ts";
import { at, boothAt, juniper, marigold, plans, sorrel, stateOf, thistle } from "./saturday.ts";
import type { Plan } from "./saturday.ts";
import type { StubState } from "./stubDashboard.ts";

/** The four states in which every page is looked at: nothing connected first. */
export function nothingConnected(): StubState {
  return { ...stateOf(at("15:10"), []), entries: [], bookings: [], evenings: [], replays: [] };
}

/** Three are open and the fourth is about to. */
export function allWell(): StubState {
  const nowMs = at("18:40");
  return stateOf(
    nowMs,
    plans.map((plan) => boothAt(plan, nowMs)),
  );
}

/** Thistle is out of paper; the others are well. */
export function oneWrong(): StubState {
  const nowMs = at("21:06");
  const well = [juniper, marigold].map((plan) => boothAt(plan, nowMs));
  const again = boothAt(sorrel, nowMs, { changes: ["16:30", "20:28"] });
  return stateOf(nowMs, [...well, stoppedThistle(nowMs, "media-empty", 70), again]);
}

function stoppedThistle(nowMs: number, reason: string, start: number): BoothView {
  const booth = boothAt(thistle, nowMs, { start });
  const sinceAtMs = nowMs - 3 * minuteMs;
  const isEmpty = reason === "media-empty";
  return {
    ...booth,
    media: booth.media === null || !isEmpty ? booth.media : { ...booth.media, sheetsLeft: 0 },
    health: "stopped",
    printer: aPrinterView({ state: "stopped", reasons: [reason], sinceAtMs, queuedJobs: 4 }),
    outlook: anOutlook(nowMs),
    alerts: [
      anAlertView({
        alertId: "alert-thistle",
        boothId: booth.boothId,
        sinceAtMs,
        reasons: [reason.replace(/-error$/, "")],
        sheetsLeft: isEmpty ? 0 : (booth.media?.sheetsLeft ?? null),
        insideC: 26.2,
      }),
    ],
  };
}

/**
 * No alert yet, but something to do at each: Juniper's roll is to be changed in the lull, Marigold asks whether
 * one was fitted, Thistle's prints wait and none comes out, Sorrel asks how many are left and is a roll short.
 */
export function watched(): StubState {
  return watchedWith({});
}

function watchedWith(overSorrel: Partial<Plan>): StubState {
  const nowMs = at("20:02");
  const [change, asks, stalls, counts] = [
    boothAt(juniper, nowMs, { start: 190, mean: 42 }),
    boothAt(marigold, nowMs),
    boothAt(thistle, nowMs),
    boothAt(sorrel, nowMs, { spares: 0, ...overSorrel }),
  ].map((booth): BoothView => ({ ...booth, health: "watch" }));
  if (change?.media == null || asks?.media == null || stalls === undefined || counts?.media == null)
    throw new Error("each of the four has paper");
  const fitted = { ask: "fitted" as const, atMs: at("19:52"), sheets: 300 };
  const { sheetsLeft } = counts.media;
  const { pitches } = counts.counts;
  const range = { lowSheets: sheetsLeft - 38, highSheets: sheetsLeft + 24 };
  const left = { ask: "left" as const, atMs: at("19:31"), sheets: range.highSheets };
  return stateOf(nowMs, [
    { ...change, media: aMediaView({ ...change.media, ...saidAtJuniper(), partialRolls: [158] }) },
    { ...asks, media: { ...asks.media, figure: "doubtful", question: fitted } },
    {
      ...stalls,
      printer: aPrinterView({ state: "processing", queuedJobs: 3, stalledSinceAtMs: at("19:57") }),
    },
    {
      ...counts,
      media: { ...counts.media, ...range, figure: "doubtful", question: left },
      counts: {
        ...counts.counts,
        ...{ reprints: 6, testPitches: 2, digitalOnly: 11, sessionsBy: "hook", pitchesBy: "counter" },
        difference: {
          ...{
            quantity: "pitches",
            counted: pitches,
            other: pitches + 13,
            otherBy: "jobs",
            sinceAtMs: at("19:31"),
          },
        },
      },
    },
  ]);
}

function saidAtJuniper() {
  const word = { bootId: "person", by: "Ama Quill", isTakenBack: false };
  return {
    ...{ figure: "confirmed" as const, confirmedBy: "Ama Quill" },
    said: [
      { ...word, seq: 3, kind: "correction" as const, atMs: at("19:40"), sheets: 70 },
      { ...word, seq: 2, kind: "waste" as const, atMs: at("19:12"), sheets: 2, isTakenBack: true },
      { ...word, seq: 1, kind: "rollFitted" as const, atMs: at("16:40"), sheets: 190 },
    ],
  };
}

/** Thistle has jammed, Sorrel is too hot, Marigold is silent, Juniper's paper will not last. */
export function onFire(): StubState {
  const nowMs = at("20:10");
  const heardAtMs = nowMs - 29 * minuteMs;
  const low = boothAt(juniper, nowMs, { start: 190, mean: 44 });
  const emptyAtMs = low.outlook.media?.emptyAtMs.p50 ?? null;
  const quiet = boothAt(marigold, heardAtMs);
  const hot = boothAt(sorrel, nowMs);
  return stateOf(nowMs, [
    {
      ...low,
      health: "watch",
      alerts: [
        anAlertView({
          alertId: "alert-juniper",
          boothId: "juniper",
          matter: "mediaLow",
          severity: "plan",
          sinceAtMs: nowMs - 12 * minuteMs,
          byAtMs: emptyAtMs === null ? null : emptyAtMs - 10 * minuteMs,
          reasons: [],
          sheetsLeft: low.media?.sheetsLeft ?? null,
          emptyAtMs,
          queuedJobs: 0,
        }),
      ],
    },
    {
      ...quiet,
      health: "silent",
      isLinked: false,
      heardAtMs,
      alerts: [
        anAlertView({
          alertId: "alert-marigold",
          boothId: "marigold",
          matter: "agentSilent",
          severity: "actNow",
          sinceAtMs: heardAtMs,
          reasons: [],
          sheetsLeft: quiet.media?.sheetsLeft ?? null,
          queuedJobs: null,
          insideC: null,
        }),
      ],
    },
    stoppedThistle(nowMs, "media-jam-error", 240),
    {
      ...hot,
      health: "needsAHand",
      inside: anInsideView({ insideC: 41.3, atMs: nowMs - 15_000, per15MinC: 1.4, outsideC: 31 }),
      alerts: [
        anAlertView({
          alertId: "alert-sorrel",
          boothId: "sorrel",
          matter: "tooHot",
          severity: "actNow",
          sinceAtMs: nowMs - 6 * minuteMs,
          reasons: [],
          sheetsLeft: hot.media?.sheetsLeft ?? null,
          queuedJobs: 0,
          insideC: 41.3,
        }),
      ],
      faults: [
        {
          source: "folder D:/layouts",
          fault: "missing",
          detail: "the folder is not there",
          sinceAtMs: nowMs - 9 * minuteMs,
        },
      ],
      keptAside: 2,
    },
  ]);
}

/** The same with a note beside the first one's alert, and a booth of which nothing is known. */
export function manyAlerts(): StubState {
  const state = onFire();
  const [first, ...others] = state.booths;
  if (first === undefined) throw new Error("the scenes have four booths");
  const note = anAlertView({ alertId: "note", boothId: first.boothId, severity: "note", matter: "tooHot" });
  const unknown = aBoothView({
    boothId: "fern",
    name: "Fern",
    booking: null,
    health: "unknown",
    media: null,
  });
  return { ...state, booths: [{ ...first, alerts: [...first.alerts, note] }, ...others, unknown] };
}

/** Alerts about paper and counts: Marigold's count is in doubt, Sorrel is a roll short and its counts differ. */
export function paperAlerts(): StubState {
  // Sorrel has had a busier day than in the other scenes, and its last roll will not do.
  const state = watchedWith({ mean: 58, changes: ["16:00"] });
  const { nowMs } = state;
  const plain = { reasons: [], queuedJobs: 0, sinceAtMs: nowMs - 8 * minuteMs };
  const alertsOf = (booth: BoothView): AlertView[] => {
    const its = { ...plain, boothId: booth.boothId, sheetsLeft: booth.media?.sheetsLeft ?? null };
    const question = booth.media?.question ?? null;
    if (booth.name === "Marigold")
      return [anAlertView({ ...its, alertId: "doubt", matter: "countDoubtful", severity: "plan", question })];
    if (booth.name !== "Sorrel") return [];
    return [
      anAlertView({
        ...{ ...its, alertId: "short", matter: "sparesShort", severity: "plan", spareRolls: 0 },
        ...{ rollsNeeded: 1, byAtMs: at("20:45"), emptyAtMs: booth.outlook.media?.emptyAtMs.p50 ?? null },
      }),
      anAlertView({
        ...{ ...its, alertId: "differ", matter: "countsDiffer", severity: "note" },
        difference: booth.counts.difference,
      }),
    ];
  };
  return { ...state, booths: state.booths.map((booth) => ({ ...booth, alerts: alertsOf(booth) })) };
}
