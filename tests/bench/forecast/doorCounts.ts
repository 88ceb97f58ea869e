import { seededDice } from "../../../seeds/dice.ts";
import type { RecordedDay } from "./openRecords.ts";
import counts from "./records/doorCounts.json" with { type: "json" };
import type { SeedRange } from "./simulateEvening.ts";

const hourMs = 3_600_000;
const slotMs = counts.everyMin * 60_000;
/** The days to fit on are those of the first seven weeks. */
const daysToFit = 34;

/**
 * People who came in through the main door of a university building on 74 working days, 9 to 17 o'clock: people, of
 * whom more come when there is a conference. Counted by the half-hour, each put somewhere within his own. The days to
 * judge by begin with the last `daysBefore` of the others, since they are told of those.
 *
 * **Source:** UCI Machine Learning Repository, "CalIt2 Building People Counts" (Ihler, Hutchins and Smyth, 2006, doi
 * 10.24432/C5NG78), in flow, under CC BY 4.0; an excerpt in `records/`.
 */
export function peopleIn(range: SeedRange, daysBefore: number): readonly RecordedDay[] {
  const days = range === "tune" ? counts.days.slice(0, daysToFit) : counts.days.slice(daysToFit - daysBefore);
  return days.map(({ date, cameIn }) => {
    const startAtMs = Date.parse(`${date}T00:00Z`) + counts.fromHour * hourMs;
    const dice = seededDice(startAtMs / hourMs, "seconds");
    const atMs = cameIn.flatMap((people, slot) =>
      Array.from({ length: people }, () => Math.round(startAtMs + (slot + dice()) * slotMs)),
    );
    return { startAtMs, endAtMs: startAtMs + cameIn.length * slotMs, atMs: atMs.sort((a, b) => a - b) };
  });
}
