import type { Matter, NoticeWhy, Role, Severity, StoredItem } from "@boothward/shared-types";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import type { AlertsStepped } from "../../../dashboard/alerts/stepBooth.ts";
import { seededDice } from "../../../seeds/dice.ts";
import type { ScenarioItem } from "../../../seeds/scenarioLine.ts";
import { openCrew } from "./crew.ts";
import { minuteMs, type Evening, type Span, type Truth } from "./evening.ts";
import { allRunsOutAtMin, happeningOf, runsOutAtMin, tooHotAtMin, type Happening } from "./happening.ts";
import { nothingYet, stepEvening, usualPace } from "./stepEvening.ts";
import { truthsOf } from "./truths.ts";

/** An evening as it went: what was raised, what was told to whom, and what there was to tell. Minutes as in the evening. */
export type Played = {
  readonly evening: Evening;
  readonly raised: readonly Raised[];
  readonly notices: readonly Told[];
  readonly truths: readonly Truth[];
};

/** An alert that was raised, raised again, or became worse. */
export type Raised = {
  readonly alertId: string;
  readonly matter: Matter;
  readonly severity: Severity;
  readonly change: "raised" | "worse" | "reopened";
  readonly atMin: number;
  /** Somebody had said to be on it. */
  readonly isTaken: boolean;
  /** Said of what is only foreseen. */
  readonly isForecast: boolean;
  /** When it would have come if nobody did anything; null: not. Only of what is foreseen. */
  readonly comesAtMin: number | null;
};

export type Told = {
  readonly alertId: string;
  readonly matter: Matter;
  readonly severity: Severity;
  readonly why: NoticeWhy;
  readonly toRole: Role;
  readonly atMin: number;
};

/** An agent beats every 10 s. */
const beatMs = 10_000;

/** An evening with what its people did in it, so that the same one can be played once more by another way. */
export type PlayedOut = {
  readonly played: Played;
  /** What was to happen, from when on; people change it as they act. */
  readonly course: readonly { readonly fromMin: number; readonly happening: Happening }[];
  readonly taken: readonly Taken[];
};

/** An alert that somebody said to be on, so long after it was raised. */
export type Taken = { readonly matter: Matter; readonly raisedAtMin: number; readonly afterMs: number };

/** Plays an evening through the dashboard's own step, with virtual time; the crew answers and acts. */
export async function playEvening(evening: Evening, pace = usualPace): Promise<Played> {
  return (await playOut(evening, pace)).played;
}

export async function playOut(evening: Evening, pace = usualPace): Promise<PlayedOut> {
  const { startAtMs, settings, seed, silences } = evening;
  const crew = openCrew(seededDice(seed, "crew"), "Ama Quill");
  let here = evening;
  let happening = happeningOf(here.booth, here);
  let standing = nothingYet(settings.boothId);
  const stored: StoredItem[] = [];
  const [raised, notices]: [Raised[], Told[]] = [[], []];
  const course: { fromMin: number; happening: Happening }[] = [{ fromMin: -Infinity, happening }];
  const taken: Taken[] = [];
  let seenToMin = -1;
  let ids = 0;
  const endMin = happening.booth.booking.closeMin + 20;
  for (let atMs = startAtMs; atMs <= startAtMs + endMin * minuteMs; atMs += pace.tickMs) {
    const atMin = (atMs - startAtMs) / minuteMs;
    const silence = silences.find(({ fromMin, toMin }) => fromMin <= atMin && atMin < toMin);
    const heardMin = silence?.fromMin ?? atMin;
    const newItems = arrived(
      happening.items,
      { fromMin: seenToMin, toMin: heardMin },
      evening,
      stored.length,
    );
    stored.push(...newItems);
    seenToMin = Math.max(seenToMin, heardMin);
    const { after, stepped } = await stepEvening(standing, here, {
      ...{ atMs, newItems, stored, pace, isLinked: silence === undefined },
      heardAtMs: Math.floor((startAtMs + heardMin * minuteMs) / beatMs) * beatMs,
      newId: () => `alert-${++ids}`,
    });
    const answered = crew.answer(after.alerts, atMs);
    const isNew = (alert: Alert, i: number) => alert !== after.alerts[i];
    taken.push(...answered.filter(isNew).flatMap((alert) => takenOf(alert, atMs, startAtMs)));
    standing = { ...after, alerts: answered };
    raised.push(...raisedIn(stepped.steps, happening, atMin));
    notices.push(...stepped.notices.map(({ alert, why, toRole }) => toldOf(alert, why, toRole, atMin)));
    const change = crew.hear(stepped.notices, happening, atMin);
    if (change === null) continue;
    here =
      "booth" in change
        ? { ...here, booth: change.booth }
        : { ...here, overlays: [...here.overlays, change.overlay] };
    happening = happeningOf(here.booth, here);
    course.push({ fromMin: atMin, happening });
  }
  return { played: { evening, raised, notices, truths: truthsOf(here, happening) }, course, taken };
}

function takenOf({ matter, raisedAtMs }: Alert, atMs: number, startAtMs: number): Taken[] {
  if (raisedAtMs === null) return [];
  return [{ matter, raisedAtMin: (raisedAtMs - startAtMs) / minuteMs, afterMs: atMs - raisedAtMs }];
}

function arrived(
  items: readonly ScenarioItem[],
  span: Span,
  { startAtMs, settings }: Evening,
  before: number,
): StoredItem[] {
  const [fromMs, toMs] = [span.fromMin * minuteMs, span.toMin * minuteMs];
  return items
    .filter(({ atMs }) => atMs > fromMs && atMs <= toMs)
    .map(({ atMs, item }, at) => ({
      ...item,
      ...{ seq: before + at + 1, atMs: startAtMs + atMs, monoMs: atMs, receivedAtMs: startAtMs + toMs },
      ...{ source: sources[item.kind] ?? "booth", boothId: settings.boothId, bootId: "boot-1" },
    }));
}

/** By which source of an agent each kind is seen. */
export const sources: Readonly<Partial<Record<StoredItem["kind"], string>>> = {
  ...{
    printerState: "printer",
    queue: "printer",
    media: "printer",
    print: "printer",
    sourceState: "printer",
  },
  ...{ inside: "thermometer", outside: "thermometer", host: "host", power: "host", peer: "peers" },
};

function raisedIn(steps: AlertsStepped["steps"], happening: Happening, atMin: number): Raised[] {
  return steps.flatMap(({ alert, step }) => {
    if (step !== "raised" && step !== "worse" && step !== "reopened") return [];
    const { alertId, matter, severity } = alert;
    const foresee = foreseen[matter];
    const isForecast = foresee !== undefined && !isMeasured(alert);
    const comesAtMin = isForecast ? foresee(happening, atMin) : null;
    const isTaken = alert.taken !== null;
    return [{ alertId, matter, severity, change: step, atMin, isTaken, isForecast, comesAtMin }];
  });
}

/** When what is only foreseen would have come. */
export const foreseen: Readonly<
  Partial<Record<Matter, (happening: Happening, atMin: number) => number | null>>
> = {
  mediaLow: runsOutAtMin,
  sparesShort: allRunsOutAtMin,
  tooHot: tooHotAtMin,
};

/** Over the limit, or empty: no forecast any more. */
function isMeasured({ matter, insideC, limitC, sheetsLeft }: AlertsStepped["living"][number]): boolean {
  return matter === "tooHot" ? (insideC ?? 0) >= (limitC ?? Infinity) : sheetsLeft === 0;
}

function toldOf(
  { alertId, matter, severity }: AlertsStepped["living"][number],
  why: NoticeWhy,
  toRole: Role,
  atMin: number,
): Told {
  return { alertId, matter, severity, why, toRole, atMin };
}
