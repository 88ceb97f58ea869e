import { parseArgs } from "node:util";
import type { Evening } from "./evening.ts";
import { familyNames } from "./families.ts";
import { fitDoubts } from "./fitDoubt.ts";
import { openEvenings } from "./openEvenings.ts";
import { printTable } from "./printTable.ts";
import { familyRows, measureRows, type Tried } from "./resultTable.ts";
import { throughReplay } from "./throughReplay.ts";
import { simulateFamily, type SeedRange } from "./simulateEvening.ts";
import { tryEvening, type Forecaster, type TriedEvening } from "./tryEvening.ts";

/** Evenings a family when judging, in a quick run, and for fitting the baselines' spread. */
const eveningsJudged = 120;
const eveningsQuick = 8;
const eveningsFitted = 10;

export type BenchChoice = {
  readonly seeds: SeedRange;
  readonly evenings: number;
  readonly families: readonly string[];
  readonly withOpen: boolean;
};

/**
 * `npm run bench -- forecast`: the demand forecast against ten baselines on simulated evenings and on open
 * arrival records. `--seeds tune` takes the evenings to fit on instead of those to judge by.
 */
export async function benchForecast(args: readonly string[], clockMs: () => number): Promise<string> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      seeds: { type: "string", default: "judge" },
      quick: { type: "boolean", default: false },
      evenings: { type: "string" },
      family: { type: "string", multiple: true },
      "no-open": { type: "boolean", default: false },
      json: { type: "boolean", default: false },
    },
  });
  const choice: BenchChoice = {
    seeds: seedRange(values.seeds),
    evenings: Number(values.evenings ?? (values.quick ? eveningsQuick : eveningsJudged)),
    families: values.family ?? familyNames,
    withOpen: !values["no-open"],
  };
  const tried = await tryAll(choice, throughReplay, clockMs);
  const [measures, families] = [measureRows(tried), familyRows(tried)];
  return values.json ? `${JSON.stringify({ measures, families })}\n` : printTable(measures, families);
}

function seedRange(word: string): SeedRange {
  if (word === "tune" || word === "judge") return word;
  throw new Error(`--seeds is tune or judge, not ${word}`);
}

/** All chosen evenings through the forecaster and the baselines. */
export async function tryAll(
  choice: BenchChoice,
  open: () => Forecaster,
  clockMs: () => number,
): Promise<Tried> {
  const toFit = familyNames.flatMap((family) => simulateFamily(family, "tune", eveningsFitted));
  const run = (evenings: readonly Evening[], fittedOn: readonly Evening[]): TriedEvening[] => {
    const doubts = fitDoubts(fittedOn);
    return evenings.map((evening) => tryEvening(evening, open, doubts, clockMs));
  };
  const chosen = choice.families.flatMap((family) => simulateFamily(family, choice.seeds, choice.evenings));
  const simulated = run(chosen, toFit);
  if (!choice.withOpen) return { simulated, learned: [], cold: [] };
  const { learned, cold } = await openEvenings(choice.seeds, choice.evenings);
  const openToFit = await openEvenings("tune", eveningsFitted);
  return { simulated, learned: run(learned, openToFit.learned), cold: run(cold, openToFit.cold) };
}
