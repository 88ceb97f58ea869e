import type { AlertStory } from "@boothward/shared-types";
import type { AlertView } from "@boothward/shared-types/view";
import { anAlertView, aPrinterView, minuteMs } from "../support/aBoothView.ts";
import { anOutlook } from "../support/anOutlook.ts";
import { at, boothAt, marigold, sorrel, stateOf, thistle } from "./saturday.ts";
import { onFire } from "./scenes.ts";
import type { StubState } from "./stubDashboard.ts";

/** On fire, and people at work: one alert is taken, one put off, one silenced, one over that nobody took, two closed. */
export function storied(): StubState {
  const state = onFire();
  const { nowMs } = state;
  const changes: Record<string, Partial<AlertView>> = {
    "alert-thistle": { state: "acknowledged", taken: { by: "Ben Tansy", atMs: nowMs - minuteMs } },
    "alert-juniper": { state: "shelved", laterUntilAtMs: nowMs + 10 * minuteMs },
  };
  const booths = state.booths.map((booth) => ({
    ...booth,
    alerts: [
      ...booth.alerts.map((alert) => ({ ...alert, ...changes[alert.alertId] })),
      ...quietOf(booth.boothId, nowMs),
    ],
  }));
  return {
    ...state,
    booths,
    stories: [
      ...booths.flatMap(({ alerts, name }) => alerts.map((alert) => storyOf(alert, name))),
      ...closed(nowMs),
    ],
    reaches: [
      {
        ...{ reachId: "reach-a", way: "push", label: "Android phone", to: "push.example.org" },
        ...{ createdAtMs: at("12:00"), lastTakenAtMs: at("19:40"), troubleFromAtMs: null, lastSaid: null },
      },
      {
        ...{ reachId: "reach-b", way: "email", label: "Office", to: "office@example.org" },
        ...{ createdAtMs: at("12:00"), lastTakenAtMs: null, troubleFromAtMs: at("18:02") },
        lastSaid: "The mail server did not answer.",
      },
    ],
    passes: [
      {
        ...{ passId: "pass-a", name: "Ben Tansy", bookingIds: ["booking-thistle", "booking-marigold"] },
        ...{ endsAtMs: at("30:00"), devices: [{ device: "Chrome on Android", createdAtMs: at("17:30") }] },
      },
    ],
  };
}

/** What Ben Tansy sees, who has two booths in his care. */
export function attending(): StubState {
  const state = storied();
  return {
    ...state,
    booths: state.booths.filter(({ boothId }) => boothId === "juniper" || boothId === "thistle"),
    signedIn: { name: "Ben Tansy", role: "attendant" },
  };
}

/** An hour before doors: Thistle has no roll yet and nobody is called for it; Marigold is ready. */
export function beforeDoors(): StubState {
  const nowMs = at("18:00");
  const stopped = boothAt(thistle, nowMs);
  const alert = anAlertView({
    ...{ alertId: "quiet", boothId: stopped.boothId, state: "suppressed", suppressedBy: "settingUp" },
    ...{ reasons: ["media-empty"], sinceAtMs: nowMs - 12 * minuteMs, sheetsLeft: null, queuedJobs: 0 },
  });
  return stateOf(nowMs, [
    boothAt(sorrel, nowMs),
    boothAt(marigold, nowMs),
    {
      ...stopped,
      ...{ health: "stopped", media: null, alerts: [alert] },
      printer: aPrinterView({ state: "stopped", reasons: ["media-empty"], sinceAtMs: alert.sinceAtMs }),
      outlook: anOutlook(nowMs),
    },
  ]);
}

function quietOf(boothId: string, nowMs: number): AlertView[] {
  if (boothId === "sorrel")
    return [
      anAlertView({
        ...{ alertId: "untaken", boothId, state: "returnedUnacknowledged", reasons: ["cover-open"] },
        ...{ sinceAtMs: nowMs - 50 * minuteMs, overAtMs: nowMs - 42 * minuteMs },
      }),
    ];
  if (boothId === "marigold")
    return [
      anAlertView({
        ...{ alertId: "silenced", boothId, state: "suppressed", suppressedBy: "siteDark", severity: "plan" },
        ...{ matter: "tooHot", sinceAtMs: nowMs - 20 * minuteMs, reasons: [] },
      }),
    ];
  return [];
}

function storyOf(alert: AlertView, boothName: string): AlertStory {
  const { sinceAtMs, severity, taken } = alert;
  const line = { severity, device: null, by: null };
  return {
    alert,
    boothName,
    closedAtMs: null,
    log: [
      { ...line, atMs: sinceAtMs, step: "raised", state: "unacknowledged" },
      ...(taken === null
        ? []
        : [
            {
              ...line,
              atMs: taken.atMs,
              step: "taken",
              state: "acknowledged",
              by: taken.by,
              device: "Chrome on Android",
            },
          ]),
    ],
    told: [
      told(alert, {
        label: "Ben Tansy’s phone",
        toRole: "attendant",
        takenAtMs: sinceAtMs,
        arrivedAtMs: sinceAtMs + 2000,
      }),
      told(alert, { way: "email", label: "Office", state: "refused", lastSaid: "No such mailbox." }),
    ],
  };
}

function told(
  { alertId, sinceAtMs, severity }: AlertView,
  over: Partial<AlertStory["told"][number]>,
): AlertStory["told"][number] {
  return {
    ...{ alertId, severity, noticeId: "notice", deliveryId: "delivery", atMs: sinceAtMs, why: "raised" },
    ...{ toRole: "owner", text: "", way: "push", label: "Phone", state: "taken" },
    ...{ lastSaid: null, takenAtMs: null, arrivedAtMs: null },
    ...over,
  };
}

function closed(nowMs: number): AlertStory[] {
  const rolled = anAlertView({
    ...{ alertId: "rolled", boothId: "sorrel", matter: "mediaLow", severity: "plan", reasons: [] },
    ...{ sinceAtMs: nowMs - 100 * minuteMs, sheetsLeft: 48, emptyAtMs: nowMs - 20 * minuteMs },
    ...{ state: "acknowledged", taken: { by: "Ama Quill", atMs: nowMs - 95 * minuteMs } },
  });
  const silent = anAlertView({
    ...{ alertId: "silent", boothId: "juniper", matter: "agentSilent", severity: "plan", reasons: [] },
    ...{ sinceAtMs: nowMs - 150 * minuteMs, sheetsLeft: null, state: "returnedUnacknowledged" },
  });
  return [
    { ...storyOf(rolled, "Sorrel"), closedAtMs: nowMs - 82 * minuteMs },
    { ...storyOf(silent, "Juniper"), closedAtMs: nowMs - 107 * minuteMs },
  ];
}
