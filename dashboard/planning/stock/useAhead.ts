import type { WeeklyUse } from "./weeklyUse.ts";

const dayMs = 86_400_000;
const weekDays = 7;

/** What one coming event is expected to use, in rolls. */
export type PlannedUse = { readonly openAtMs: number; readonly mean: number; readonly sd: number };

/** Mean and variance of the rolls used from now until so many days ahead. */
export type UseAhead = (days: number) => { readonly mean: number; readonly variance: number };

/**
 * So many weeks ahead the run sheet is taken for whole; later ones fill up still, and what weeks used lately is
 * expected of them where the run sheet holds less. Our own choice.
 */
const wholeWeeks = 2;

/** Use of rolls from now on: what the run sheet holds, and what is yet to be booked. */
export function useAhead(
  planned: readonly PlannedUse[],
  weekly: WeeklyUse | null,
  nowMs: number,
  horizonWeeks: number,
): UseAhead {
  const events = planned
    .filter(({ openAtMs }) => openAtMs >= nowMs)
    .map(({ openAtMs, mean, sd }) => ({ days: (openAtMs - nowMs) / dayMs, mean, variance: sd * sd }));
  const unbooked = Array.from({ length: horizonWeeks }, (_, week) => unbookedIn(week, events, weekly));
  return (days) => {
    let [mean, variance] = [0, 0];
    for (const event of events) {
      if (event.days > days) continue;
      mean += event.mean;
      variance += event.variance;
    }
    unbooked.forEach((each, week) => {
      const share = Math.min(1, Math.max(0, days / weekDays - week));
      mean += each.mean * share;
      variance += each.variance * share;
    });
    return { mean, variance };
  };
}

/** What a week uses lately beyond what is booked in it. */
function unbookedIn(
  week: number,
  events: readonly { readonly days: number; readonly mean: number }[],
  weekly: WeeklyUse | null,
): { readonly mean: number; readonly variance: number } {
  if (weekly === null || weekly.mean <= 0 || week < wholeWeeks) return { mean: 0, variance: 0 };
  const booked = events
    .filter(({ days }) => Math.floor(days / weekDays) === week)
    .reduce((sum, { mean }) => sum + mean, 0);
  const mean = Math.max(0, weekly.mean - booked);
  return { mean, variance: weekly.sd ** 2 * (mean / weekly.mean) };
}
