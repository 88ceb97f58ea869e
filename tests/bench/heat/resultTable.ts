import { alertChance } from "../../../dashboard/alerts/judgeHeat.ts";
import type { AlertMeasures } from "./leadTime.ts";
import { byHorizon, geometricMean, rmseOver, type FamilyMeasures } from "./measures.ts";
import { boundsText, columns, verdict } from "../forecast/printTable.ts";

type Bounds = readonly [low: number, high: number];
const atMost = (high: number): Bounds => [-Infinity, high];
const atLeast = (low: number): Bounds => [low, Infinity];

/** All that is printed: the program's families, the same with parts taken out, alerts and times. */
export type HeatResults = {
  readonly own: readonly FamilyMeasures[];
  readonly constantSun: readonly FamilyMeasures[];
  readonly ablations: readonly (readonly [string, readonly FamilyMeasures[]])[];
  readonly records: readonly FamilyMeasures[];
  readonly alerts: AlertMeasures;
  readonly askMs: readonly number[];
};

/** One table: measures with must and aim, the parts taken out, then each family over its best baseline. */
export function heatTable(results: HeatResults): string {
  return [
    columns([["measure", "seen", "must", "aim", ""], ...measureRows(results)]),
    columns([
      ["part taken out", "RMSE 15", "30", "60", "pinball 15", "30", "60", "Brier", "cover", "program/this"],
      ["(the program)", ...ratiosText(results.own), "1.000"],
      ...results.ablations.map(([name, families]) => [
        name,
        ...ratiosText(families),
        rmseOver(results.own, families).toFixed(3),
      ]),
    ]),
    columns([
      [
        "family",
        "cases",
        "RMSE C",
        "30",
        "60",
        "/best",
        "30",
        "60",
        "pinball/best",
        "30",
        "60",
        "Brier/best",
        "cover",
        "best at 60",
      ],
      ...[...results.own, ...results.records].map((family) => [
        family.family,
        String(family.cases),
        ...[
          ...family.rmseC,
          ...family.rmseRatio,
          ...family.pinballRatio,
          family.brierRatio,
          family.coverage,
        ].map((value) => (Number.isNaN(value) ? "-" : value.toFixed(2))),
        family.bestBaseline[2] ?? "-",
      ]),
    ]),
  ].join("\n");
}

function measureRows({ own, constantSun, alerts, askMs }: HeatResults): string[][] {
  const covers = own.map(({ coverage }) => coverage);
  const rmse = byHorizon(({ rmseRatio }) => rmseRatio, own).map(({ ratio }) => ratio);
  const pinball = byHorizon(({ pinballRatio }) => pinballRatio, own).map(({ ratio }) => ratio);
  const sorted = [...askMs].sort((a, b) => a - b);
  const atShare = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] ?? NaN;
  return [
    row("RMSE over the best baseline, 15 min", rmse[0], atMost(0.9), atMost(0.85)),
    row("RMSE over the best baseline, 30 min", rmse[1], atMost(0.91), atMost(0.86)),
    row("RMSE over the best baseline, 60 min", rmse[2], atMost(0.9), atMost(0.83)),
    row("pinball over the best baseline, 15 min", pinball[0], atMost(0.87), atMost(0.82)),
    row("pinball over the best baseline, 30 min", pinball[1], atMost(0.89), atMost(0.84)),
    row("pinball over the best baseline, 60 min", pinball[2], atMost(0.89), atMost(0.84)),
    row("Brier of passing the limit within 60 min", briersOf(own), atMost(0.88), atMost(0.8)),
    row(
      "coverage of the 80 % band, mean",
      covers.reduce((sum, each) => sum + each, 0) / covers.length,
      [0.75, 0.85],
      [0.78, 0.82],
    ),
    row("coverage, least of any family", Math.min(...covers), atLeast(0.65), atLeast(0.72)),
    row(
      "worst family's RMSE ratio",
      Math.max(...own.flatMap((each) => each.rmseRatio)),
      atMost(1.15),
      atMost(1.02),
    ),
    row("RMSE over the sun as a free constant", rmseOver(own, constantSun), atMost(0.97), atMost(0.9)),
    row("ms a reading and an ask, median", atShare(0.5), atMost(30), atMost(5)),
    row("ms a reading and an ask, 99 %", atShare(0.99), atMost(30), atMost(5)),
    row(
      `alert (chance ${String(alertChance.from)}) 20 min before the limit`,
      alerts.inTime,
      atLeast(0.9),
      atLeast(0.95),
    ),
    row("false alerts a hot day", alerts.falsePerHotDay, atMost(0.2), atMost(0.1)),
  ];
}

function briersOf(families: readonly FamilyMeasures[]): number {
  return geometricMean(families.map(({ brierRatio }) => brierRatio));
}

function row(measure: string, value: number | undefined, must: Bounds, aim: Bounds): string[] {
  const seen = value ?? NaN;
  return [measure, seen.toFixed(3), boundsText(must), boundsText(aim), verdict(seen, must, aim)];
}

function ratiosText(families: readonly FamilyMeasures[]): string[] {
  const cover = families.reduce((sum, { coverage }) => sum + coverage, 0) / families.length;
  return [
    ...byHorizon(({ rmseRatio }) => rmseRatio, families).map(({ ratio }) => ratio),
    ...byHorizon(({ pinballRatio }) => pinballRatio, families).map(({ ratio }) => ratio),
    briersOf(families),
    cover,
  ].map((value) => value.toFixed(3));
}
