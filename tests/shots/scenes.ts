import type { BoothView } from "@boothward/shared-types/view";
import { anAlertView, aPrinterView, minuteMs } from "../support/aBoothView.ts";
import { at, boothAt, juniper, marigold, plans, sorrel, stateOf, thistle } from "./saturday.ts";
import type { StubState } from "./stubDashboard.ts";

/** The four states in which every page is looked at: nothing connected first. */
export function nothingConnected(): StubState {
  return { ...stateOf(at("15:10"), []), entries: [], bookings: [], evenings: [] };
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
    outlook: { atMs: nowMs, media: null },
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
      inside: { insideC: 41.3, atMs: nowMs - 15_000, per15MinC: 1.4, outsideC: 31 },
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
