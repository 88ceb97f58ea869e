import { noise, type Dice } from "../../../seeds/dice.ts";

export type Stop = { readonly fromMs: number; readonly toMs: number };

/** How the line at a booth behaves. */
export type LineHabits = {
  /** Median length of a session, door to door. */
  readonly sessionMs: number;
  /** Groups in the line at which one that comes turns round again. */
  readonly longestLine: number;
  readonly stops: readonly Stop[];
};

/** Of those who find the booth stopped, so many stay; of the others, so many come back within the hour after. */
const stayAtStop = 0.5;
const comeBack = 0.4;
const sessionSpread = 0.28;

/** When each session ends, in ms from the opening and in order: one booth, first come, first served. */
export function boothLine(arrivals: readonly number[], habits: LineHabits, dice: Dice): number[] {
  const finished: number[] = [];
  let freeAtMs = 0;
  for (const atMs of withReturns(arrivals, habits.stops, dice)) {
    const inLine = finished.length - countUntil(finished, atMs);
    if (inLine >= habits.longestLine) continue;
    freeAtMs = endOfSession(
      Math.max(atMs, freeAtMs),
      habits.sessionMs * Math.exp(noise(dice, sessionSpread)),
      habits.stops,
    );
    finished.push(freeAtMs);
  }
  return finished;
}

function countUntil(finished: readonly number[], atMs: number): number {
  let count = finished.length;
  while (count > 0 && (finished[count - 1] ?? 0) > atMs) count -= 1;
  return count;
}

/** Those who come while the booth is stopped stay, go for good, or come back later. */
function withReturns(arrivals: readonly number[], stops: readonly Stop[], dice: Dice): number[] {
  const kept: number[] = [];
  for (const atMs of arrivals) {
    const stop = stops.find(({ fromMs, toMs }) => atMs >= fromMs && atMs < toMs);
    if (stop === undefined || dice() < stayAtStop) kept.push(atMs);
    else if (dice() < comeBack) kept.push(stop.toMs + dice() * 3_600_000);
  }
  return kept.sort((a, b) => a - b);
}

/** A session that a stop meets goes on after it. */
function endOfSession(startMs: number, lengthMs: number, stops: readonly Stop[]): number {
  let endMs = startMs + lengthMs;
  for (const { fromMs, toMs } of stops)
    if (fromMs < endMs && toMs > startMs) endMs += toMs - Math.max(fromMs, startMs);
  return endMs;
}
