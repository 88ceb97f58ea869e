import type { Outlook } from "@boothward/shared-types/view";
import { advice as words } from "./en/advice.ts";
import { changeStep, isInLull, isLate, nowWithinMs } from "./changeStep.ts";
import type { Change } from "./changeStep.ts";
import { step } from "./en/step.ts";
import { numberWord } from "./en/today.ts";
import type { Format } from "../../alerts/format.ts";

type MediaOutlook = NonNullable<Outlook["media"]>;

/** Waits shorter than these are no news: a guest takes them for the printer's own time. */
const printNewsMs = 120_000;
const boothNewsMs = 240_000;

/** What to do about the loaded roll: the one sentence, and, with a roll at hand, what each moment to do it costs. */
export type ChangeText = {
  doNow: string;
  choices: { name: string; cost: string }[];
  doubt: string | null;
};

/** The weighing of the moment to change in plain words; null where there is nothing to weigh. */
export function changeText(media: MediaOutlook, format: Format): ChangeText | null {
  const doNow = changeStep(media, format);
  const { change } = media;
  if (doNow === null || change === null) return null;
  if (media.rolls.spares === 0) return { doNow, choices: [], doubt: null };
  const { advised, atEmpty, emptyBeforeChance } = change;
  const empty = { name: words.atEmpty(format.clock(atEmpty.atMs)), cost: costOf(atEmpty) };
  if (isLate(change)) return { doNow, choices: [empty], doubt: null };
  const name = capital(words.advised(step.at(format.clock(advised.atMs)), isInLull(change)));
  const isDoubtful = emptyBeforeChance >= 0.03;
  return {
    doNow,
    choices: [{ name, cost: costOf(advised) }, empty],
    doubt: isDoubtful ? words.emptyBefore(inHundred(emptyBeforeChance)) : null,
  };
}

/** What one print a session would save, with the latest moment to begin; null where it is not needed. */
export function rationingText({ rationing }: MediaOutlook, nowMs: number, format: Format): string | null {
  if (rationing === null) return null;
  if (rationing.latestAtMs === null) return words.onePrintShort(inHundred(rationing.lastsChanceNow));
  const risk = inHundred(rationing.riskKept);
  return rationing.latestAtMs - nowMs < nowWithinMs
    ? words.onePrintNow(risk)
    : words.onePrintLatest(format.clock(rationing.latestAtMs), risk);
}

/** Rolls needed to the close beside those at the booth. */
export function rollsText({ needed, spares }: MediaOutlook["rolls"]): string {
  if (needed === 0) return words.noneNeeded;
  const text = words.needed(capital(numberWord(needed)), needed === 1);
  if (spares === null) return text + words.plain;
  if (spares === 0) return text + words.none;
  const there = numberWord(spares);
  return spares >= needed
    ? text + words.there(there, spares === 1)
    : text + words.short(there, spares === 1, numberWord(needed - spares));
}

/** How long guests wait, where it is long enough to be told. */
export function waitText({ waits }: MediaOutlook, format: Format): string | null {
  if (waits === null) return null;
  const told = [
    ...(waits.boothMs !== null && waits.boothMs >= boothNewsMs
      ? [words.boothFree(lengthText(waits.boothMs, format))]
      : []),
    ...(waits.printMs >= printNewsMs ? [words.printReady(lengthText(waits.printMs, format))] : []),
  ];
  return told.length === 0 ? null : told.join(" ");
}

/** "25 seconds", in fives, up to a minute and a half; then minutes. */
export function lengthText(lengthMs: number, format: Format): string {
  if (lengthMs >= 90_000) return format.minutes(lengthMs);
  return words.seconds(Math.max(5, Math.round(lengthMs / 5000) * 5));
}

/** "6 in 100"; what is not certain never rounds to 0 or 100. */
export function inHundred(chance: number): string {
  return words.inHundred(Math.min(99, Math.max(1, Math.round(chance * 100))));
}

function costOf(cost: Change["advised"]): string {
  return `${capital(words.waits(cost.groupsDelayed))}; ${words.aside(cost.sheetsSetAside)}.`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
