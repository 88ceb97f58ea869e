import type { Matter, Role } from "@boothward/shared-types";
import { figuresOf } from "../figures.ts";
import { minuteMs } from "./evening.ts";
import { outcomeOf, type Outcome } from "./outcome.ts";
import type { Played, Told } from "./playEvening.ts";

/** What all played days together say of the alerts. */
export type AlertMeasures = {
  readonly evenings: number;
  readonly boothHours: number;
  readonly alertsPerHour: number;
  readonly nowPerHour: number;
  /** 'Now' notices to one person, the worse off of attendant and owner, repeats and escalations among them. */
  readonly nowNoticesPerHour: number;
  readonly truths: number;
  readonly missedShare: number;
  readonly falseAlarmsPerHour: number;
  readonly falseNowPerHour: number;
  readonly falseForecastsPerEvent: number;
  readonly noticesPer10Min: number;
  readonly floodShare: number;
  readonly mostIn10Min: number;
  /** Of all alerts told. */
  readonly nowShare: number;
  readonly byMatter: readonly MatterRow[];
};

export type MatterRow = {
  readonly matter: Matter;
  readonly truths: number;
  readonly missed: number;
  readonly raised: number;
  readonly false: number;
  /** Minutes: after it began, for what is measured; before it comes, for what is foreseen. */
  readonly delayMin: { readonly p50: number; readonly p95: number };
  readonly leadMin: { readonly p50: number; readonly p5: number };
};

/** More than so many notices to one person in ten minutes are a flood (ISA-18.2 and EEMUA 191, as tabled). */
const floodAbove = 10;

export function alertMeasures(days: readonly (readonly Played[])[]): AlertMeasures {
  const evenings = days.flat();
  const outcomes = evenings.map(outcomeOf);
  const boothHours = evenings.reduce((sum, { evening }) => sum + openHours(evening.booth.booking), 0);
  const raised = evenings.flatMap((each) => each.raised).filter(({ severity }) => severity !== "note");
  const now = raised.filter(({ severity }) => severity === "actNow");
  const count = (part: (outcome: Outcome) => readonly unknown[]) =>
    outcomes.reduce((sum, each) => sum + part(each).length, 0);
  const truths = count(({ told }) => told) + count(({ missed }) => missed);
  const windows = days
    .flatMap((day) => [...day.map((each) => windowsOf([each], "attendant")), windowsOf(day, "owner")])
    .flat();
  const nowTo = (role: Role) =>
    evenings
      .flatMap((each) => each.notices)
      .filter(({ toRole, severity }) => toRole === role && severity === "actNow").length;
  return {
    ...{ evenings: evenings.length, boothHours, truths },
    alertsPerHour: raised.length / boothHours,
    nowPerHour: now.length / boothHours,
    nowNoticesPerHour: Math.max(nowTo("attendant"), nowTo("owner")) / boothHours,
    missedShare: count(({ missed }) => missed) / truths,
    falseAlarmsPerHour: count(({ falseAlarms }) => falseAlarms) / boothHours,
    falseNowPerHour:
      count(({ falseAlarms }) => falseAlarms.filter(({ severity }) => severity === "actNow")) / boothHours,
    falseForecastsPerEvent: count(({ falseForecasts }) => falseForecasts) / evenings.length,
    noticesPer10Min: windows.reduce((sum, each) => sum + each, 0) / windows.length,
    floodShare: windows.filter((each) => each > floodAbove).length / windows.length,
    mostIn10Min: Math.max(...windows),
    nowShare: now.length / raised.length,
    byMatter: matterRows(evenings, outcomes),
  };
}

function openHours({ openMin, closeMin }: { readonly openMin: number; readonly closeMin: number }): number {
  return (closeMin - openMin) / 60;
}

/** How many notices one person got in each ten minutes between the first opening and the last close. */
function windowsOf(played: readonly Played[], role: Role): number[] {
  const minuteOf = ({ evening }: Played, atMin: number) => evening.startAtMs / minuteMs + atMin;
  const fromMin = Math.min(...played.map((each) => minuteOf(each, each.evening.booth.booking.openMin)));
  const toMin = Math.max(...played.map((each) => minuteOf(each, each.evening.booth.booking.closeMin)));
  const windows = Array.from({ length: Math.ceil((toMin - fromMin) / 10) }, () => 0);
  for (const each of played)
    for (const notice of each.notices.filter(({ toRole }: Told) => toRole === role)) {
      const window = Math.floor((minuteOf(each, notice.atMin) - fromMin) / 10);
      if (window in windows) windows[window] = (windows[window] ?? 0) + 1;
    }
  return windows;
}

function matterRows(evenings: readonly Played[], outcomes: readonly Outcome[]): MatterRow[] {
  const told = outcomes.flatMap((each) => each.told);
  const missed = outcomes.flatMap((each) => each.missed);
  const wrong = outcomes.flatMap((each) => [...each.falseAlarms, ...each.falseForecasts]);
  const foretold = outcomes.flatMap((each) => each.foretold);
  const raised = evenings
    .flatMap((each) => each.raised)
    .filter(({ change, severity }) => change === "raised" && severity !== "note");
  const matters = new Set([...raised.map(({ matter }) => matter), ...missed.map(({ matter }) => matter)]);
  return [...matters].map((matter) => {
    const isOf = (each: { readonly matter: Matter }) => each.matter === matter;
    const own = told.filter(({ truth }) => isOf(truth));
    const leads = foretold.filter(isOf).map(({ leadMin }) => leadMin);
    return {
      ...{ matter, truths: own.length + missed.filter(isOf).length, missed: missed.filter(isOf).length },
      ...{ raised: raised.filter(isOf).length, false: wrong.filter(isOf).length },
      delayMin: figuresOf(
        own.filter(({ truth }) => truth.sinceMin === undefined).map(({ delayMin }) => delayMin),
      ),
      leadMin: { p50: figuresOf(leads).p50, p5: -figuresOf(leads.map((lead) => -lead)).p95 },
    };
  });
}
