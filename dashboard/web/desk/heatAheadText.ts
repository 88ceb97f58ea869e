import type { HeatAhead } from "@boothward/shared-types/site";
import type { BoothView } from "@boothward/shared-types/view";
import { heatAheadNow } from "../state/heatAheadNow.ts";
import { heatAhead as words } from "../words/en/heatAhead.ts";
import { numberWord } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** The next hour as a sentence, of the thermometer that threatens most; empty where none is heard. */
export function heatAheadText(booth: BoothView, nowMs: number, format: Format): string {
  const { inside, limitC, outlook } = booth;
  if (inside === null || outlook.heat.length === 0) return "";
  const [first] = heatAheadNow(booth, nowMs);
  if (first === undefined) return words.tooFewAhead;
  const limit = format.temperature(limitC);
  const where = outlook.heat.length > 1 ? words.at(first.sensor) : "";
  const text =
    (first.fan[0]?.p50 ?? inside.insideC) > limitC
      ? coolingText(first, limitC, format)
      : crossingText(first, limit, format);
  return where === "" ? text : where + text.charAt(0).toLowerCase() + text.slice(1);
}

function crossingText({ crossAtMs, crossChance60 }: HeatAhead, limit: string, format: Format): string {
  const chance = chanceText(crossChance60);
  if (crossAtMs !== null) return words.passes(limit, format.clock(crossAtMs), chance);
  return crossChance60 < 0.05 ? words.staysBelow(limit) : words.mayPass(limit, chance);
}

function coolingText({ fan }: HeatAhead, limitC: number, format: Format): string {
  const below = fan.find(({ p50 }) => p50 <= limitC);
  return below === undefined
    ? words.staysOver
    : words.coolsBy(format.temperature(limitC), format.clock(below.atMs));
}

/** "seven in ten": no finer than such a forecast is. */
function chanceText(chance: number): string {
  const inTen = Math.round(chance * 10);
  return inTen < 1 ? words.hardly : words.inTen(numberWord(Math.min(9, inTen)));
}
