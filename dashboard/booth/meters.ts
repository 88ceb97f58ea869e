import type { StoredItem } from "@boothward/shared-types";
import { pitchesAfter, printsAfter, type Bin } from "./bins.ts";
import type { MediaBase, MediaMarks, Meter } from "./mediaMarks.ts";

type MediaItem = Extract<StoredItem, { kind: "media" }>;

const minuteMs = 60_000;

/** Changing a roll takes two or three minutes (common practice, no source): no print in the minute before. */
const idleBeforeJumpMs = minuteMs;

/** Less than this up is a meter's wobble: sheets, and percent of a kit. */
const leastJump = { sheets: 3, pct: 3 };

/** The longest job is done this long after its sheets began to leave the meter. */
const aheadMs = minuteMs;

/** More sheets than one job has; what the meter lost beyond is waste. */
const mostAhead = 12;

/** A meter after it spoke again; `old` null when it speaks for the first time. */
export function meterOf(
  key: string,
  old: Meter | null,
  item: MediaItem,
  marks: MediaMarks,
  bins: readonly Bin[],
): Meter {
  const { sheetsLeft, leftPct } = item;
  const atMs = item.atMs - (item.ageMs ?? 0);
  const pitchesAt = marks.pitchesEver - pitchesAfter(bins, atMs);
  const seen = { key, sheetsLeft, leftPct, atMs, pitchesAt };
  if (sheetsLeft !== null) {
    return { ...seen, ahead: aheadOf(knownBefore(old, marks.base), seen), stepPct: null };
  }
  const fellPct = old === null ? 0 : (fallOf(old, seen) ?? 0);
  const stepPct = old?.stepPct ?? null;
  return { ...seen, ahead: 0, stepPct: fellPct > 0 ? Math.min(fellPct, stepPct ?? fellPct) : stepPct };
}

type Said = Pick<Meter, "sheetsLeft" | "leftPct" | "atMs" | "pitchesAt">;

/** How far the meter fell, in the unit both readings speak; null when they share none. */
function fallOf(old: Said, seen: Said): number | null {
  if (old.sheetsLeft !== null && seen.sheetsLeft !== null) return old.sheetsLeft - seen.sheetsLeft;
  if (old.leftPct !== null && seen.leftPct !== null) return old.leftPct - seen.leftPct;
  return null;
}

/** What a meter's new figure is held against: its last one, or the roll that was put in since. */
function knownBefore(old: Meter | null, base: MediaBase | null): (Said & { readonly ahead: number }) | null {
  return base !== null && base.atMs > (old?.atMs ?? -Infinity)
    ? { ...base, sheetsLeft: base.sheets, ahead: 0 }
    : old;
}

/** Sheets that the meter has lost and the count has not seen yet, of the job that goes on. */
function aheadOf(before: (Said & { readonly ahead: number }) | null, seen: Said): number {
  const fell = before === null ? null : fallOf(before, seen);
  if (before === null || fell === null || fell < 0) return 0;
  const pending = seen.atMs - before.atMs <= aheadMs ? before.ahead : 0;
  return Math.min(mostAhead, Math.max(0, pending + fell - (seen.pitchesAt - before.pitchesAt)));
}

/** The meter after a print was counted: sheets it saw before the count did are not taken off again. */
export function useAhead(meter: Meter, pitches: number, atMs: number): Meter {
  if (meter.ahead === 0) return meter;
  const used = atMs - meter.atMs <= aheadMs ? Math.min(meter.ahead, pitches) : 0;
  return { ...meter, pitchesAt: meter.pitchesAt + used, ahead: used === 0 ? 0 : meter.ahead - used };
}

/** A meter only rises when something was put in; while prints go on it is a wobble. */
export function isRollChange(base: MediaBase | null, old: Meter, seen: Meter, bins: readonly Bin[]): boolean {
  const rise = -(fallOf(old, seen) ?? 0);
  const least = old.sheetsLeft !== null && seen.sheetsLeft !== null ? leastJump.sheets : leastJump.pct;
  if (rise < least) return false;
  // The change was known before the meter could show it: it moves only when a job runs.
  if (base !== null && base.basis !== "corrected" && base.atMs > old.atMs) return false;
  return !printsAfter(bins, seen.atMs - idleBeforeJumpMs).some((print) => print.atMs <= seen.atMs);
}
