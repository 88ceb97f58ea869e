import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { rules } from "../../../dashboard/alerts/rules.ts";
import type { Scene } from "../../../dashboard/alerts/scene.ts";
import { stepAlert } from "../../../dashboard/alerts/stepAlert.ts";
import type { HeatAhead } from "../../../dashboard/forecast/heat/forecastHeat.ts";
import { families } from "./families.ts";
import type { OpenForecaster } from "./forecasters.ts";
import type { HeatCase } from "./heatCase.ts";
import { simulateCases, type SeedRange } from "./simulateCase.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth } from "../../support/aBooth.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aScene } from "../../support/aScene.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

/** The afternoons on which the alert is tried: nobody opens doors or cools, the sun does what it does. */
const alertFamilies = ["trailer, closed", "trailer, sun on the printer", "trailer, clouds"] as const;

export type AlertMeasures = {
  /** Share of first crossings before which the alert stood at least 20 min. */
  readonly inTime: number;
  /** What was told of for nothing, for each day that passed the limit or came near it. */
  readonly falsePerHotDay: number;
};

/** Before that there is no forecast to speak of. */
const firstMin = 30;
const aheadMin = 20;
/** What people were told of with no crossing in so many minutes was false; what was called an hour ahead may come a little later. */
const falseAfterMin = 90;

/** A day that comes so near to its limit is a hot one. */
const nearC = 4;

/** A day whose limit is passed within the first hour and a half gives nobody a chance to say so, and is left out. */
export function alertMeasures(open: OpenForecaster, range: SeedRange, count: number): AlertMeasures {
  const played = alertFamilies.flatMap((name) =>
    simulateCases(name, families[name]!, range, count).map((heat) => playDay(heat, open)),
  );
  const hot = played.filter(({ crossedAt, nearestC }) =>
    crossedAt === null ? nearestC < nearC : crossedAt >= falseAfterMin,
  );
  const crossed = hot.flatMap(({ crossedAt, standsMin }) =>
    crossedAt === null ? [] : [{ crossedAt, standsMin }],
  );
  const inTime = crossed.filter(({ crossedAt, standsMin }) =>
    standsMin.some((at) => at <= crossedAt - aheadMin && at >= crossedAt - 120),
  );
  return {
    inTime: inTime.length / crossed.length,
    falsePerHotDay: hot.reduce((sum, { falseAlerts }) => sum + falseAlerts, 0) / hot.length,
  };
}

function courseOf({ cameC, readings }: HeatCase): number[] {
  const course: number[] = [];
  for (let minute = 0; ; minute += 1) {
    const degC = cameC(readings[0]!.atMs + minute * minuteMs);
    if (degC === null) return course;
    course.push(degC);
  }
}

/** When the limit was first passed, when the alert was told of and when it stood; minutes of the day. */
function playDay(heat: HeatCase, open: OpenForecaster) {
  const { limitC } = heat.site;
  const course = courseOf(heat);
  const startMs = heat.readings[0]!.atMs;
  const passedAt = course.findIndex((degC) => degC > limitC);
  const crossedAt = passedAt === -1 ? null : passedAt;
  const endMin = crossedAt ?? course.length - falseAfterMin;
  const forecaster = open(heat.site);
  const [toldMin, standsMin]: [number[], number[]] = [[], []];
  let taken = 0;
  let alert: Alert | null = null;
  for (let minute = 0; minute < endMin; minute += 1) {
    const atMs = startMs + minute * minuteMs;
    for (; taken < heat.readings.length && heat.readings[taken]!.atMs <= atMs; taken += 1)
      forecaster.take(heat.readings[taken]!);
    const last = heat.readings[taken - 1];
    const ahead = forecaster.ask(atMs);
    if (last === undefined || ahead === null || minute < firstMin) continue;
    const judged = rule.judge(sceneAt(minute, (last.atMs - startMs) / minuteMs, last.insideC, limitC, ahead));
    const step = stepAlert(alert, judged, rule, { boothId: "b", atMs: sixAtMs + minute * minuteMs, newId });
    alert = step.alert?.phase === "closed" ? null : step.alert;
    if (step.change === "raised") toldMin.push(minute);
    if (isUp(alert)) standsMin.push(minute);
  }
  // What stood until the limit was passed came true, however early it was told.
  const untrue = crossedAt !== null && isUp(alert) ? toldMin.slice(0, -1) : toldMin;
  const falseAlerts = untrue.filter((at) => crossedAt === null || crossedAt - at > falseAfterMin).length;
  return { crossedAt, nearestC: limitC - Math.max(...course), standsMin, falseAlerts };
}

function isUp(alert: Alert | null): boolean {
  return alert?.phase === "open" || alert?.phase === "clearing";
}

/** The booth's own rule, in a booth that is open all day and knows nothing but its thermometer. */
const rule = rules.find(({ matter }) => matter === "tooHot")!;
const newId = () => "alert";
const openAllDay = aBookedTime({ openAtMs: sixAtMs - 24 * hourMs, closeAtMs: sixAtMs + 24 * hourMs });

function sceneAt(minute: number, readMin: number, insideC: number, limitC: number, ahead: HeatAhead): Scene {
  const { basis, crossChance60, crossAtMs } = ahead;
  const heat = [{ sensor: "inside", basis, fan: [], crossChance60: crossChance60 ?? 0, crossAtMs }];
  return aScene(minute, [[readMin, "inside", { insideC }]], {
    booking: openAllDay,
    settings: { ...aBooth(), limitC },
    outlook: anOutlook(sixAtMs + minute * minuteMs, null, { heat }),
  });
}
