import type { ChangeCost } from "@boothward/shared-types";
import type { DemandAhead } from "../demand/demandAhead.ts";
import { emptyChance, groupsBetween, leftOnAverage, stepAt } from "./alongDemand.ts";
import { changeMs } from "./rollWaste.ts";

/** What changing the roll at this instant costs, on average: guests that wait, sheets set aside. */
export function costAt(ahead: DemandAhead, sheetsLeft: number, atMs: number): ChangeCost {
  return {
    atMs,
    groupsDelayed: groupsBetween(ahead, atMs, atMs + changeMs),
    sheetsSetAside: leftOnAverage(ahead, stepAt(ahead, atMs), sheetsLeft),
  };
}

/**
 * What waiting until the roll is empty costs on the evenings on which it does not last; its `atMs` is when half
 * of those evenings have come to it. Null: it always lasts.
 */
export function costAtEmpty(ahead: DemandAhead, sheetsLeft: number): ChangeCost | null {
  const { stepsAtMs } = ahead;
  const total = emptyChance(ahead, stepsAtMs.length - 1, sheetsLeft);
  if (total <= 0) return null;
  let [before, groups] = [0, 0];
  let atEmptyAtMs: number | null = null;
  stepsAtMs.forEach((atMs, step) => {
    const chance = Math.max(before, emptyChance(ahead, step, sheetsLeft));
    const fromAtMs = stepsAtMs[step - 1] ?? atMs;
    const middleAtMs = (fromAtMs + atMs) / 2;
    groups += (chance - before) * groupsBetween(ahead, middleAtMs, middleAtMs + changeMs);
    if (atEmptyAtMs === null && chance >= total / 2) {
      const share = chance > before ? (total / 2 - before) / (chance - before) : 0;
      atEmptyAtMs = fromAtMs + (atMs - fromAtMs) * Math.max(0, share);
    }
    before = chance;
  });
  return { atMs: atEmptyAtMs ?? ahead.atMs, groupsDelayed: groups / before, sheetsSetAside: 0 };
}
