import { copyBank, stepBank, type Bank } from "./bank.ts";
import type { HeatDrive } from "./heatDrive.ts";
import { mixtureOf, voicesOf, type Mixture } from "./mixture.ts";
import { motionSteps } from "./motionStep.ts";

const minuteMs = 60_000;
export const stepMin = 5;
export const fanSteps = 12;

const fiveMinutes = motionSteps(stepMin);

/** What drives the bank from outside: the sun, and the air outside by its figure. */
export type Surroundings = { readonly drive: HeatDrive; readonly outsideAt: (atMs: number) => number };

/** Moves a bank on in place, in equal steps of at most five minutes, of a quarter-hour when it is long. */
export function moveOn(bank: Bank, fromMs: number, toMs: number, around: Surroundings): void {
  const minutes = (toMs - fromMs) / minuteMs;
  if (minutes <= 0) return;
  const count = Math.ceil(minutes / (minutes > 60 ? 15 : stepMin));
  const steps = motionSteps(minutes / count);
  for (let at = 0; at < count; at += 1) {
    const middleMs = fromMs + ((at + 0.5) / count) * (toMs - fromMs);
    stepBank(bank, steps, around.outsideAt(middleMs), around.drive(middleMs));
  }
}

/** What the bank at an instant says of the readings then, 5, 10, ... 60 min later. */
export function lookAhead(bank: Bank, fromMs: number, around: Surroundings): readonly Mixture[] {
  const moved = copyBank(bank);
  const voices = voicesOf(bank);
  const said = [mixtureOf(moved, voices)];
  for (let at = 0; at < fanSteps; at += 1) {
    const middleMs = fromMs + (at + 0.5) * stepMin * minuteMs;
    stepBank(moved, fiveMinutes, around.outsideAt(middleMs), around.drive(middleMs), voices.members);
    said.push(mixtureOf(moved, voices));
  }
  return said;
}
