import type { Day, DayBooth } from "../../seeds/day.ts";
import { itemsOf } from "../../seeds/scenarioLine.ts";
import { simulate } from "../../seeds/simulate.ts";

/** What must have been counted once everything up to an offset into the scenario has arrived. */
export type CountsAt = { readonly atMs: number; readonly sessions: number; readonly pitches: number };

/** The counts of a booth's day after each of its sessions and prints, from none on. */
export function simulatedCounts(booth: DayBooth, day: Day, seed: number): CountsAt[] {
  const steps: CountsAt[] = [{ atMs: 0, sessions: 0, pitches: 0 }];
  for (const { atMs, item } of itemsOf(simulate(booth, day, seed))) {
    const before = steps.at(-1) ?? { sessions: 0, pitches: 0 };
    if (item.kind === "session") steps.push({ atMs, sessions: before.sessions + 1, pitches: before.pitches });
    if (item.kind === "print")
      steps.push({ atMs, sessions: before.sessions, pitches: before.pitches + item.pitches });
  }
  return steps;
}

/** The counts due at an offset. */
export function countsDue(steps: readonly CountsAt[], offsetMs: number): Omit<CountsAt, "atMs"> {
  const due = steps.findLast((step) => step.atMs <= offsetMs);
  return { sessions: due?.sessions ?? 0, pitches: due?.pitches ?? 0 };
}
