import { parseArgs } from "node:util";
import { columns } from "../forecast/printTable.ts";
import { families, familyNames } from "./families.ts";
import { ablations, program, type OpenForecaster } from "./forecasters.ts";
import type { HeatCase } from "./heatCase.ts";
import { familyMeasures, geometricMean, byHorizon, rmseOver, type FamilyMeasures } from "./measures.ts";
import { openSeries } from "./openSeries.ts";
import { simulateCases, type SeedRange } from "./simulateCase.ts";
import { tryCase } from "./tryCase.ts";

export async function benchHeat(args: readonly string[], clockMs: () => number): Promise<string> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      seeds: { type: "string", default: "judge" },
      cases: { type: "string", default: "20" },
      family: { type: "string", multiple: true },
      "no-ablations": { type: "boolean", default: false },
    },
  });
  const range = values.seeds as SeedRange;
  const cases = (values.family ?? [...familyNames, "open"]).flatMap((name) =>
    casesOf(name, range, Number(values.cases)),
  );
  const run = (open: OpenForecaster) => cases.map((heat) => tryCase(heat, open, clockMs));
  const own = run(program);
  const mine = familyMeasures(own);
  const ms = own.flatMap(({ askMs }) => askMs).sort((a, b) => a - b);
  let text = columns([
    [
      "family",
      "n",
      "rmse15",
      "30",
      "60",
      "r15",
      "r30",
      "r60",
      "pb15",
      "30",
      "60",
      "brier",
      "cover",
      "best15",
      "best60",
    ],
    ...mine.map((m) => [
      m.family,
      String(m.cases),
      ...[...m.rmseC, ...m.rmseRatio, ...m.pinballRatio, m.brierRatio, m.coverage].map((x) => x.toFixed(2)),
      m.bestBaseline[0]!,
      m.bestBaseline[2]!,
    ]),
  ]);
  text += summary("program", mine, mine);
  if (!values["no-ablations"])
    for (const [name, open] of Object.entries(ablations))
      text += summary(name, familyMeasures(run(open)), mine);
  text += `ms p50 ${ms[ms.length >> 1]!.toFixed(2)} p99 ${ms[Math.floor(ms.length * 0.99)]!.toFixed(2)}\n`;
  return Promise.resolve(text);
}
function summary(name: string, m: readonly FamilyMeasures[], mine: readonly FamilyMeasures[]) {
  const f = (x: number) => x.toFixed(3);
  return `${name.padEnd(26)} rmse ${byHorizon((o) => o.rmseRatio, m)
    .map((x) => f(x.ratio))
    .join(" ")}  pin ${byHorizon((o) => o.pinballRatio, m)
    .map((x) => f(x.ratio))
    .join(
      " ",
    )}  brier ${f(geometricMean(m.map((x) => x.brierRatio)))} cover ${f(m.reduce((s, x) => s + x.coverage, 0) / m.length)} min ${f(Math.min(...m.map((x) => x.coverage)))} worst ${f(Math.max(...m.flatMap((x) => x.rmseRatio.filter((r) => !Number.isNaN(r)))))}  prog/this ${f(rmseOver(mine, m))}\n`;
}
function casesOf(name: string, range: SeedRange, count: number): HeatCase[] {
  if (name === "open") return openSeries(range, count);
  return simulateCases(name, families[name]!, range, count);
}
