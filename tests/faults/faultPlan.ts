import { between, type Dice, pick } from "../../seeds/dice.ts";

/** What is done to the line between booth and store, and after which wait. */
export type Fault = { readonly waitMs: number; readonly what: "agent" | "dashboard" | "cut" };

/** Shortest and longest wait between two faults, ms: from before a link is up to well after it. */
const waitsMs = [60, 900] as const;

/** Kills of agent and dashboard in turn, with the cuts strewn among them. */
export function faultPlan(kills: number, cuts: number, dice: Dice): Fault[] {
  const faults: Fault[] = [];
  let [killed, cut] = [0, 0];
  while (killed < kills || cut < cuts) {
    const isKill = pick(dice, [
      [true, kills - killed],
      [false, cuts - cut],
    ]);
    const what = !isKill ? "cut" : killed % 2 === 0 ? "agent" : "dashboard";
    if (isKill) killed++;
    else cut++;
    faults.push({ waitMs: Math.round(between(dice, ...waitsMs)), what });
  }
  return faults;
}
