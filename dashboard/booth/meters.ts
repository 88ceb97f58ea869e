import type { StoredItem } from "@boothward/shared-types";
import { pitchesAfter, printsAfter, type Bin } from "./bins.ts";
import type { MediaBase, MediaMarks, Meter } from "./mediaMarks.ts";

type MediaItem = Extract<StoredItem, { kind: "media" }>;

const minuteMs = 60_000;

/** Changing a roll takes two or three minutes (common practice, no source): no print in the minute before. */
const idleBeforeJumpMs = minuteMs;

/** Less than this up is a meter's wobble: sheets, and percent of a kit. */
const leastJump = { sheets: 3, pct: 3 };

/** A meter that fell, but by so many sheets too few, or that was away: a roll was put in between two looks. */
const leastHidden = { sheets: 20, pct: 20 };

/** The longest job is done this long after its sheets began to leave the meter. */
const aheadMs = minuteMs;

/** Waste is told by a person, some minutes after the meter saw it. */
const wasteAheadMs = 15 * minuteMs;

/** More sheets than one job has; what the meter lost beyond is waste. */
const mostAhead = 12;

/** A roll is put in so long after a person said it at most; no print came between. */
const sameChangeMs = 15 * minuteMs;

/** So many steps down show how a meter moves. */
const fallsKept = 2;

/** More sheets than any roll holds: not a figure. */
const mostSheets = 5_000;

/** Whether enough steps were seen to know how a meter moves. */
export function isStepKnown({ step, falls }: Meter): boolean {
  return step !== null && falls >= fallsKept;
}

/** Whether a meter says a figure that paper can have. */
export function hasFigure({ sheetsLeft, leftPct }: Pick<MediaItem, "sheetsLeft" | "leftPct">): boolean {
  return sheetsLeft === null ? leftPct !== null : sheetsLeft <= mostSheets;
}

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
  const isSameRoll = old !== null && !old.isLost && (marks.base?.atMs ?? -Infinity) <= old.atMs;
  // Without a print a fall is waste, another roll or a wobble's end, and no step.
  const fell = isSameRoll && pitchesAt > old.pitchesAt ? (fallOf(old, seen) ?? 0) : 0;
  const { step, falls } = old !== null && isSameUnit(old, seen) ? old : { step: null, falls: 0 };
  return {
    ...seen,
    ahead: sheetsLeft === null ? 0 : aheadOf(knownBefore(old, marks.base, seen), seen),
    step: fell > 0 ? Math.min(fell, step ?? fell) : step,
    falls: fell > 0 ? Math.min(fallsKept, falls + 1) : falls,
    wobble: old?.wobble ?? 0,
    isLost: false,
  };
}

type Said = Pick<Meter, "sheetsLeft" | "leftPct" | "atMs" | "pitchesAt">;

function isSameUnit(a: Said, b: Said): boolean {
  return (a.sheetsLeft === null) === (b.sheetsLeft === null);
}

/** How far the meter fell, in the unit both readings speak; null when they share none. */
function fallOf(old: Said, seen: Said): number | null {
  if (old.sheetsLeft !== null && seen.sheetsLeft !== null) return old.sheetsLeft - seen.sheetsLeft;
  if (old.leftPct !== null && seen.leftPct !== null) return old.leftPct - seen.leftPct;
  return null;
}

type Known = Said & { readonly ahead: number };

/** What a meter's new figure is held against: its last one, or the roll that was put in since if it is below what that held. */
function knownBefore(old: Meter | null, base: MediaBase | null, seen: Said): Known | null {
  if (base === null || (old !== null && hasSpoken(old, base))) return old;
  const held = { ...base, sheetsLeft: base.sheets, ahead: 0 };
  return old !== null && (fallOf(held, seen) ?? -1) < 0 ? old : held;
}

/** Whether a meter has spoken of the roll that `base` knows: since then, or before a person counted it. */
function hasSpoken({ key, atMs }: Meter, { basis, atMs: baseAtMs, metersThen }: MediaBase): boolean {
  return atMs >= baseAtMs || basis === "off" || metersThen.some((meter) => meter.key === key);
}

/** Sheets that the meter has lost and the count has not seen yet, of the job that goes on. */
function aheadOf(before: Known | null, seen: Said): number {
  const fell = before === null ? null : fallOf(before, seen);
  if (before === null || fell === null || fell < 0) return 0;
  const pending = seen.atMs - before.atMs <= aheadMs ? before.ahead : 0;
  return Math.min(mostAhead, Math.max(0, pending + fell - (seen.pitchesAt - before.pitchesAt)));
}

/** The meter after pitches were counted: sheets it saw before the count did are not taken off again. */
export function useAhead(meter: Meter, pitches: number, atMs: number, isWaste: boolean): Meter {
  if (meter.ahead === 0) return meter;
  const isRecent = atMs - meter.atMs <= (isWaste ? wasteAheadMs : aheadMs);
  const used = isRecent ? Math.min(meter.ahead, pitches) : 0;
  return { ...meter, pitchesAt: meter.pitchesAt + used, ahead: used === 0 ? 0 : meter.ahead - used };
}

/**
 * The meter after the waste of a change was told. What it shows less than the roll held it has seen already; one
 * that shows more is off, and has seen the waste as the others do.
 */
export function useChangeWaste(meter: Meter, base: MediaBase, pitches: number): Meter {
  if (meter.atMs < base.atMs || meter.sheetsLeft === null) return meter;
  const held = (base.sheets ?? Infinity) - (meter.pitchesAt - base.pitchesAt);
  const less = held - meter.sheetsLeft;
  const seen = less < 0 ? pitches : Math.min(pitches, less);
  return { ...meter, pitchesAt: meter.pitchesAt + seen, ahead: Math.max(0, meter.ahead - seen) };
}

/**
 * Whether a meter says that something was put in. It only rises then, and while prints go on a rise is a wobble
 * ("wobble": it rose, but does not prove a change). One that was away, or that fell by far too little for what
 * was printed, has missed the change itself.
 */
export function riseOf(
  { base, pitchesEver }: MediaMarks,
  old: Meter,
  seen: Meter,
  bins: readonly Bin[],
): "change" | "wobble" | "none" {
  const rise = -(fallOf(old, seen) ?? 0);
  const hidden = seen.sheetsLeft === null ? rise : rise + seen.pitchesAt - old.pitchesAt;
  const unit = seen.sheetsLeft === null ? "pct" : "sheets";
  const isRise = !old.isLost && rise >= Math.max(leastJump[unit], 2 * old.wobble);
  if (!isRise && hidden < Math.max(leastHidden[unit], 2 * old.wobble)) return "none";
  if (base !== null && isKnownChange(base, pitchesEver, old, seen)) return "none";
  const isBusy = printsAfter(bins, seen.atMs - idleBeforeJumpMs).some((print) => print.atMs <= seen.atMs);
  return isBusy && !old.isLost ? "wobble" : "change";
}

/**
 * Whether the change was known before the meter showed it: it may move only when a job runs, and say once more
 * what the old roll had.
 */
function isKnownChange(base: MediaBase, pitchesEver: number, old: Meter, seen: Meter): boolean {
  if (isCount(base)) return false;
  const isJustFitted = seen.atMs - base.atMs <= sameChangeMs && pitchesEver === base.pitchesAt;
  const isFirst = base.atMs > old.atMs && !isAnother(base, old, seen);
  return isFirst || (base.basis === "fitted" && isJustFitted);
}

/** Whether a meter that speaks long after a roll was put in shows far more than that roll held. */
function isAnother({ sheets, atMs, pitchesAt }: MediaBase, { wobble }: Meter, seen: Meter): boolean {
  if (sheets === null || seen.sheetsLeft === null || seen.atMs - atMs <= sameChangeMs) return false;
  const above = seen.sheetsLeft - (sheets - (seen.pitchesAt - pitchesAt));
  return above >= Math.max(leastHidden.sheets, 2 * wobble);
}

/** A count of what is there, or a roll that was only taken off: no roll was put in by it. */
export function isCount({ basis }: MediaBase): boolean {
  return basis === "corrected" || basis === "off";
}
