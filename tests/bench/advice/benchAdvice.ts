import { parseArgs } from "node:util";
import { between, seededDice } from "../../../seeds/dice.ts";
import type { Evening } from "../forecast/evening.ts";
import { familyNames } from "../forecast/families.ts";
import { simulateFamily, type SeedRange } from "../forecast/simulateEvening.ts";
import { openAdviceRule } from "./adviceRule.ts";
import { atTenth, whenEmpty, type ChangeRule } from "./changeRule.ts";
import { kitSheets, playNight, type Night } from "./playNight.ts";

/** What a rule did on average, per evening. */
export type RuleRow = Night & { readonly rule: string };

const eveningsUsual = 60;
const columns = ["delayed", "turnedAway", "wasted", "setAside", "changes"] as const;

/** A booth begins with whatever is on its printer; a full kit would outlast most of these evenings. */
const loadedSheets = [40, 240] as const;

const rules: Readonly<Record<string, (evening: Evening, loaded: number) => ChangeRule>> = {
  "change when empty": () => whenEmpty,
  "change at 10 %": () => atTenth(kitSheets),
  "as advised": openAdviceRule,
};

/** Each rule through the same evenings: the same guests, rolls and patience. */
export function tryRules(range: SeedRange, evenings: number, families = familyNames): RuleRow[] {
  const chosen = families.flatMap((family) => simulateFamily(family, range, evenings));
  return Object.entries(rules).map(([rule, open]) => {
    const nights = chosen.map((evening, seed) => {
      const loaded = Math.round(between(seededDice(seed, "loaded"), ...loadedSheets));
      return playNight(evening, loaded, open(evening, loaded), seed);
    });
    const mean = (column: keyof Night) =>
      nights.reduce((sum, night) => sum + night[column], 0) / Math.max(1, nights.length);
    return {
      rule,
      ...{ delayed: mean("delayed"), turnedAway: mean("turnedAway"), wasted: mean("wasted") },
      ...{ setAside: mean("setAside"), changes: mean("changes") },
    };
  });
}

/**
 * `npm run bench -- advice`: the advice on when to change a roll against two rules of thumb, per evening.
 * `--seeds tune` takes the evenings that weights were chosen on instead of those to judge by.
 */
export function benchAdvice(args: readonly string[]): string {
  const { values } = parseArgs({
    args: [...args],
    options: { seeds: { type: "string", default: "judge" }, evenings: { type: "string" } },
  });
  const { seeds } = values;
  if (seeds !== "tune" && seeds !== "judge") throw new Error(`--seeds is tune or judge, not ${seeds}`);
  const rows = tryRules(seeds, Number(values.evenings ?? eveningsUsual));
  const line = (cells: readonly string[]) =>
    `${(cells[0] ?? "").padEnd(20)}${cells
      .slice(1)
      .map((cell) => cell.padStart(12))
      .join("")}\n`;
  const head = ["per evening", "delayed", "turned away", "wasted", "set aside", "changes"];
  return [head, ...rows.map((row) => [row.rule, ...columns.map((column) => row[column].toFixed(3))])]
    .map(line)
    .join("");
}
