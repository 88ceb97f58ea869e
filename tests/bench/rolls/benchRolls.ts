import { parseArgs } from "node:util";
import { drawSeason } from "./drawSeason.ts";
import { always, asAdvised, playSeason, type LoadRule, type SeasonPlayed } from "./playSeason.ts";

/** A season of two hundred events. */
const boothsUsual = 4;
const nightsEachUsual = 50;
/** Rolls run out on few nights in a thousand: fewer seasons would not tell one rule from another. */
const seasonsUsual = 20;
/** Seasons to judge by; those that anything was chosen on begin elsewhere. */
const firstSeed = { tune: 1_000, judge: 5_000 } as const;

/** The usual roll, and one that holds more (common practice, no source). */
const kits = [400, 700] as const;

export type RollsRow = SeasonPlayed & { readonly kitSheets: number; readonly rule: string };

const rules: Readonly<Record<string, LoadRule>> = {
  "one roll each": always(1),
  "two rolls each": always(2),
  "three rolls each": always(3),
  "as advised": asAdvised,
};

/** Each rule through the same seasons: the same guests, the same fittings. */
export function tryLoads(
  seeds: readonly number[],
  size: { readonly booths: number; readonly nightsEach: number; readonly kitSheets: number },
): RollsRow[] {
  const seasons = seeds.map((seed) => drawSeason(seed, size.booths, size.nightsEach));
  return Object.entries(rules).map(([rule, load]) => {
    const played = seasons.map((season) => playSeason(season, size.kitSheets, load));
    const sum = (of: keyof SeasonPlayed) => played.reduce((total, each) => total + each[of], 0);
    return {
      ...{ rule, kitSheets: size.kitSheets, nights: sum("nights"), runOut: sum("runOut") },
      ...{ missingSheets: sum("missingSheets"), carried: sum("carried"), putIn: sum("putIn") },
    };
  });
}

/**
 * `npm run bench -- rolls`: rolls taken along as advised against fixed numbers of them, over simulated seasons.
 * `--seasons` how many; `--seeds tune` takes other seasons than those to judge by.
 */
export function benchRolls(args: readonly string[]): string {
  const { values } = parseArgs({
    args: [...args],
    options: { seeds: { type: "string", default: "judge" }, seasons: { type: "string" } },
  });
  const { seeds } = values;
  if (seeds !== "tune" && seeds !== "judge") throw new Error(`--seeds is tune or judge, not ${seeds}`);
  const count = Number(values.seasons ?? seasonsUsual);
  const chosen = Array.from({ length: count }, (_, at) => firstSeed[seeds] + at);
  const size = { booths: boothsUsual, nightsEach: nightsEachUsual };
  const rows = kits.flatMap((kitSheets) => tryLoads(chosen, { ...size, kitSheets }));
  return [columns, ...rows.map(cellsOf)].map(line).join("");
}

const columns = ["sheets a roll", "rule", "nights", "ran out", "per 1000", "missing", "carried", "put in"];

function cellsOf({ kitSheets, rule, nights, runOut, missingSheets, carried, putIn }: RollsRow): string[] {
  return [
    ...[String(kitSheets), rule, String(nights), String(runOut), ((1000 * runOut) / nights).toFixed(1)],
    ...[String(missingSheets), (carried / nights).toFixed(3), (putIn / nights).toFixed(3)],
  ];
}

function line([kit = "", rule = "", ...cells]: readonly string[]): string {
  return `${kit.padEnd(15)}${rule.padEnd(18)}${cells.map((cell) => cell.padStart(10)).join("")}\n`;
}
