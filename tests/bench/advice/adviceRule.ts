import type { ChangeAdvice } from "@boothward/shared-types";
import type { DemandPlan } from "../../../dashboard/forecast/demand/demandInput.ts";
import type { DemandRun } from "../../../dashboard/forecast/demand/demandRun.ts";
import { forecastDemand } from "../../../dashboard/forecast/demand/forecastDemand.ts";
import { changeAdvice } from "../../../dashboard/forecast/media/changeAdvice.ts";
import type { Evening } from "../forecast/evening.ts";
import type { ChangeRule, Seen } from "./changeRule.ts";

/** A person looks at the advice so often, and at every session when few sheets are left. */
const lookEveryMs = 5 * 60_000;
const fewSheets = 20;

/** Warned for so long, somebody stands by with the next roll when the old one ends. */
const readyAfterMs = 5 * 60_000;

/** Does what the advice says, with the real forecast of what is known by then. */
export function openAdviceRule(evening: Evening, sheetsLoaded: number): ChangeRule {
  const plan = planOf(evening, sheetsLoaded);
  let run: DemandRun | null = null;
  let looked: { readonly atMs: number; readonly advice: ChangeAdvice | null } | null = null;
  let warnedAtMs: number | null = null;
  const look = (seen: Seen): ChangeAdvice | null => {
    const { atMs, sessions, stops } = seen;
    const input = { plan, past: pastOf(evening), sessions, stops };
    const forecast = forecastDemand(run, input, atMs, evening.endAtMs);
    run = forecast.run;
    return changeAdvice(forecast.ahead, seen.sheetsLeft, seen.spareRolls);
  };
  return (seen) => {
    const { atMs, sheetsLeft } = seen;
    if (looked === null || atMs - looked.atMs >= lookEveryMs || sheetsLeft < fewSheets) {
      looked = { atMs, advice: look(seen) };
    }
    if (looked.advice === null) {
      warnedAtMs = null;
      return "leave";
    }
    warnedAtMs ??= atMs;
    const isReady = atMs - warnedAtMs >= readyAfterMs;
    if (looked.advice.advised.atMs <= atMs && (sheetsLeft > 0 || isReady)) {
      [looked, warnedAtMs] = [null, null];
      return "change";
    }
    return isReady ? "standBy" : "leave";
  };
}

function planOf({ plan, startAtMs, endAtMs }: Evening, sheetsLoaded: number): DemandPlan {
  return {
    key: "advice",
    openAtMs: startAtMs,
    closeAtMs: endAtMs,
    guests: plan.guests,
    eventKind: plan.pattern,
    sheetsPerSession: plan.sheetsPerSession,
    sheetsLoaded,
  };
}

function pastOf({ past }: Evening) {
  return past.map(({ pattern, start, end, guests, sessions, sheets, bins15 }) => ({
    ...{ eventKind: pattern, openAtMs: Date.parse(start), closeAtMs: Date.parse(end) },
    ...{ guests, sessions, sheets, sheetsPer15Min: bins15 },
  }));
}
