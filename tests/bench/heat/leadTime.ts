import { alertChance } from "../../../dashboard/alerts/judgeHeat.ts";
import { between, seededDice } from "../../../seeds/dice.ts";
import { families } from "./families.ts";
import type { OpenForecaster } from "./forecasters.ts";
import type { HeatCase } from "./heatCase.ts";
import { simulateCases, type SeedRange } from "./simulateCase.ts";

/** The afternoons on which the alert is tried: nobody opens doors or cools, the sun does what it does. */
const alertFamilies = ["trailer, closed", "trailer, sun on the printer", "trailer, clouds"] as const;

export type AlertMeasures = {
  readonly crossings: number;
  /** Share of first crossings with the alert at least 20 min before, and at all before. */
  readonly inTime: number;
  readonly before: number;
  readonly days: number;
  readonly falsePerDay: number;
};

const minuteMs = 60_000;
const askEveryMin = 5;
const aheadMin = 20;
/** An alert with no crossing in so many minutes was false; what was called an hour ahead may come a little later. */
const falseAfterMin = 90;

/** Half of the days pass their limit, half come near it and do not. */
export function alertMeasures(open: OpenForecaster, range: SeedRange, count: number): AlertMeasures {
  const days = alertFamilies.flatMap((name) =>
    simulateCases(name, families[name]!, range, count).map((heat, at) => withLimit(heat, at)),
  );
  const played = days.map((heat) => playDay(heat, open));
  const crossed = played.filter(({ crossedMin }) => crossedMin !== null);
  const share = (leastMin: number) =>
    crossed.filter(({ crossedMin, raisedMin }) =>
      raisedMin.some((at) => at <= (crossedMin ?? 0) - leastMin && at >= (crossedMin ?? 0) - 120),
    ).length / crossed.length;
  return {
    ...{ crossings: crossed.length, inTime: share(aheadMin), before: share(1), days: days.length },
    falsePerDay: played.reduce((sum, day) => sum + day.falseAlerts, 0) / days.length,
  };
}

function withLimit(heat: HeatCase, at: number): HeatCase {
  const dice = seededDice(heat.asksAtMs[0]! / minuteMs, "alert limit");
  const course = courseOf(heat);
  const [first, highest] = [course[0]!, Math.max(...course)];
  const limitC =
    at % 2 === 0 ? first + between(dice, 0.6, 0.95) * (highest - first) : highest + between(dice, 0.3, 4);
  return { ...heat, site: { ...heat.site, limitC } };
}

function courseOf({ cameC, readings }: HeatCase): number[] {
  const course: number[] = [];
  for (let minute = 0; ; minute += 1) {
    const degC = cameC(readings[0]!.atMs + minute * minuteMs);
    if (degC === null) return course;
    course.push(degC);
  }
}

/** When the limit was first passed, when the alert was raised, and how often for nothing; minutes of the day. */
function playDay(heat: HeatCase, open: OpenForecaster) {
  const course = courseOf(heat);
  const startMs = heat.readings[0]!.atMs;
  const crossedAt = course.findIndex((degC) => degC > heat.site.limitC);
  const forecaster = open(heat.site);
  const raisedMin: number[] = [];
  let [taken, isUp] = [0, false];
  for (
    let minute = 30;
    minute < (crossedAt === -1 ? course.length - falseAfterMin : crossedAt);
    minute += askEveryMin
  ) {
    const atMs = startMs + minute * minuteMs;
    for (; taken < heat.readings.length && heat.readings[taken]!.atMs <= atMs; taken += 1)
      forecaster.take(heat.readings[taken]!);
    const chance = forecaster.ask(atMs)?.crossChance60 ?? 0;
    if (chance >= alertChance.from && !isUp) raisedMin.push(minute);
    isUp = chance >= (isUp ? alertChance.until : alertChance.from);
  }
  // A day whose limit is passed within the first hour and a half gives nobody a chance to say so.
  const crossedMin = crossedAt >= falseAfterMin ? crossedAt : null;
  const falseAlerts = raisedMin.filter((at) => crossedAt === -1 || crossedAt - at > falseAfterMin).length;
  return { crossedMin, raisedMin, falseAlerts };
}
