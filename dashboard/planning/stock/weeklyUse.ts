import type { StockMove } from "@boothward/shared-types/stock";
import { effectiveMoves } from "./effectiveMoves.ts";
import { places } from "./places.ts";

/** Full rolls used in a week. */
export type WeeklyUse = { readonly mean: number; readonly sd: number; readonly weeks: number };

const weekMs = 7 * 86_400_000;

/** Half a year back; before that was another season. */
const mostWeeks = 26;
/** Fewer weeks say nothing of a week. */
const leastWeeks = 4;

/** What the weeks before now used, those without an event too; null: the ledger is too young to say. */
export function weeklyUse(moves: readonly StockMove[], nowMs: number): WeeklyUse | null {
  const effective = effectiveMoves(moves);
  const firstAtMs = effective[0]?.atMs ?? nowMs;
  const weeks = Math.min(mostWeeks, Math.floor((nowMs - firstAtMs) / weekMs));
  if (weeks < leastWeeks) return null;
  const used = new Array<number>(weeks).fill(0);
  for (const { atMs, fromPlace, toPlace, rolls } of effective) {
    const week = Math.floor((nowMs - atMs) / weekMs);
    if (week < 0 || week >= weeks) continue;
    const net = (toPlace === places.used ? rolls : 0) - (fromPlace === places.used ? rolls : 0);
    used[week] = (used[week] ?? 0) + net;
  }
  const mean = used.reduce((sum, each) => sum + each, 0) / weeks;
  const variance = used.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (weeks - 1);
  return { mean: Math.max(0, mean), sd: Math.sqrt(variance), weeks };
}
