import type { BoothView, PrinterAhead } from "@boothward/shared-types/view";
import type { Format } from "../../alerts/format.ts";
import { heatAheadNow } from "../state/heatAheadNow.ts";
import { heatAhead as words } from "../words/en/heatAhead.ts";

const minuteMs = 60_000;

/** From this chance on that the limit is passed within the hour, a pause is something to weigh. */
const weighFrom = 0.3;

/** Whether the printer slows down, and what a pause would cost where one may help; empty where there is neither. */
export function printerAheadText(booth: BoothView, nowMs: number, format: Format): string {
  const { printer } = booth.outlook;
  if (printer === null) return "";
  const { slowing, pause } = printer;
  const sentences: string[] = [];
  if (slowing !== null) {
    const say = slowing.isByHeat ? words.slowingByHeat : words.slowing;
    sentences.push(say(slowing.lateS.toFixed(0), slowing.usualS.toFixed(0)));
  }
  if (slowing?.isByHeat === true || mayBeTooHot(booth, nowMs)) sentences.push(pauseText(pause, format));
  return sentences.join(" ");
}

function pauseText({ pauseMinutes, cost }: PrinterAhead["pause"], format: Format): string {
  const length = format.minutes(pauseMinutes * minuteMs);
  if (cost === null) return words.pauseStays(length);
  const clear = format.minutes(Math.max(1, cost.clearsInMinutes) * minuteMs);
  return words.pause(length, Math.round(cost.guestsDelayed), clear);
}

function mayBeTooHot(booth: BoothView, nowMs: number): boolean {
  const [first] = heatAheadNow(booth, nowMs);
  return first !== undefined && ((first.fan[0]?.p50 ?? 0) > booth.limitC || first.crossChance60 >= weighFrom);
}
