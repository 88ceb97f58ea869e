import { parseArgs } from "node:util";
import { families, familyNames } from "./families.ts";
import { ablations, constantSun, program, type OpenForecaster } from "./forecasters.ts";
import type { HeatCase } from "./heatCase.ts";
import { alertMeasures } from "./leadTime.ts";
import { familyMeasures } from "./measures.ts";
import { openRooms } from "./openRooms.ts";
import { openSeries } from "./openSeries.ts";
import { heatTable } from "./resultTable.ts";
import { simulateCases, type SeedRange } from "./simulateCase.ts";
import { tryCase } from "./tryCase.ts";

/** Cases a family when judging, and in a quick run. */
const casesJudged = 20;
const casesQuick = 4;

/**
 * `npm run bench -- heat`: the temperature forecast against four baselines, each with the band that its own errors
 * give it in hindsight and the best taken for each cell, on simulated buildings and on open records; and against
 * itself with parts taken out. The records stand in the table of families and in no mean: they are too few.
 * `--seeds tune` takes the buildings to fit on instead of those to judge by.
 */
export function benchHeat(args: readonly string[], clockMs: () => number): string {
  const { values } = parseArgs({
    args: [...args],
    options: {
      seeds: { type: "string", default: "judge" },
      quick: { type: "boolean", default: false },
      cases: { type: "string" },
      family: { type: "string", multiple: true },
    },
  });
  const range = seedRange(values.seeds);
  const count = Number(values.cases ?? (values.quick ? casesQuick : casesJudged));
  const cases = casesOf(values.family ?? familyNames, range, count);
  const run = (open: OpenForecaster, tried = cases) => tried.map((heat) => tryCase(heat, open, clockMs));
  const own = run(program);
  const parts = Object.entries(ablations).map(([name, open]) => [name, familyMeasures(run(open))] as const);
  return heatTable({
    own: familyMeasures(own),
    constantSun: parts.find(([name]) => name === constantSun)?.[1] ?? [],
    ablations: parts,
    records: familyMeasures(run(program, [...openRooms(range), ...openSeries(range, count)])),
    alerts: alertMeasures(program, range, 2 * count),
    askMs: own.flatMap(({ askMs }) => askMs),
  });
}

/** The chosen families' cases. */
export function casesOf(names: readonly string[], range: SeedRange, count: number): HeatCase[] {
  return names.flatMap((name) => {
    const setting = families[name];
    if (setting === undefined) throw new Error(`--family is one of ${familyNames.join("; ")}, not ${name}`);
    return simulateCases(name, setting, range, count);
  });
}

function seedRange(word: string): SeedRange {
  if (word === "tune" || word === "judge") return word;
  throw new Error(`--seeds is tune or judge, not ${word}`);
}
