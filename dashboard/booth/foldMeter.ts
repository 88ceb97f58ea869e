import type { StoredItem } from "@boothward/shared-types";
import type { Bin } from "./bins.ts";
import { withEntry } from "./keyed.ts";
import { amountOf, baseAt, changeRoll, knowChange, sameChangeMs, undoChange } from "./mediaLedger.ts";
import { withMarks, withSuspicion, type MediaLedger } from "./mediaLedger.ts";
import { isSameBase, type MediaBase, type MediaMarks, type Meter } from "./mediaMarks.ts";
import { hasFigure, meterOf, riseOf } from "./meters.ts";
import { isDenied } from "./suspicions.ts";

type MediaItem = Extract<StoredItem, { kind: "media" }>;

/** Points, in the meter's own unit, within which a figure is back where it was. */
const backWithin = 2;

/** Paper and ribbon are read in one look at the printer, so long at most. */
const lookMs = 5_000;

/** Takes in what a meter says. A part without a figure is put aside: unknown is not its last value. */
export function foldMeter(ledger: MediaLedger, item: MediaItem, bins: readonly Bin[]): MediaLedger {
  const { marks } = ledger;
  const key = `${item.queue}\n${item.part}`;
  const old = marks.meters.find((meter) => meter.key === key) ?? null;
  if (!hasFigure(item)) {
    const meters = marks.meters.map((meter) => (meter === old ? { ...meter, isLost: true } : meter));
    return withMarks(ledger, { ...marks, meters }, item.atMs);
  }
  const meter = meterOf(key, old, item, marks, bins);
  const calm = takeBackWobble(ledger, old, meter);
  const seen = calm.wobble > 0 ? { ...meter, wobble: Math.max(meter.wobble, calm.wobble) } : meter;
  const rise = old === null ? "none" : riseOf(calm.ledger.marks, old, seen, bins);
  const risen =
    rise === "none"
      ? lowerJump(calm.ledger, seen)
      : takeRise(calm.ledger, seen, rise === "change", item.atMs);
  const meters = withEntry(risen.marks.meters, (each) => each.key, seen);
  return withMarks(risen, { ...risen.marks, meters }, item.atMs);
}

/** A meter that rose: a change of the roll, unless a person denied it or prints go on. */
function takeRise(ledger: MediaLedger, meter: Meter, isChange: boolean, atMs: number): MediaLedger {
  const base = jumpedBase(ledger.marks, meter);
  const isDeniedNow = isDenied(ledger.denials, meter.atMs);
  if (isChange && !isDeniedNow) return changeRoll(ledger, base, meter.key, atMs);
  return withSuspicion(ledger, { atMs: meter.atMs, ...amountOf(base), isDenied: isDeniedNow });
}

/** Paper and ribbon jump one after the other: the roll that jumped in is as long as the shorter of them. */
function lowerJump(ledger: MediaLedger, seen: Meter): MediaLedger {
  const last = ledger.changes.at(-1);
  if (last === undefined || !isSameBase(last.base, ledger.marks.base)) return ledger;
  const { base, meterKey } = last;
  const isSameLook = meterKey !== seen.key && Math.abs(seen.atMs - base.atMs) <= lookMs;
  if (base.basis !== "jumped" || !isSameLook || seen.pitchesAt !== base.pitchesAt) return ledger;
  const { sheets, leftPct } = jumpedBase(ledger.marks, seen);
  const isLower = (sheets ?? Infinity) < (base.sheets ?? 0) || (leftPct ?? Infinity) < (base.leftPct ?? 0);
  return isLower ? knowChange(ledger, last, { ...base, sheets, leftPct }) : ledger;
}

/** A meter that is back where it was, before the roll it seemed to show was used: it only wobbled. */
function takeBackWobble(
  ledger: MediaLedger,
  old: Meter | null,
  seen: Meter,
): { readonly ledger: MediaLedger; readonly wobble: number } {
  const none = { ledger, wobble: 0 };
  const last = ledger.changes.at(-1);
  if (old === null || last === undefined || last.meterKey !== seen.key) return none;
  if (!isSameBase(last.base, ledger.marks.base) || last.base.basis !== "jumped") return none;
  const was = last.before.meters.find((meter) => meter.key === seen.key);
  if (was === undefined || seen.atMs - last.base.atMs > sameChangeMs) return none;
  const rise = figureOf(last.base) - amount(was);
  const fell = amount(old) - amount(seen);
  const used = seen.pitchesAt - last.base.pitchesAt;
  const isBack = amount(seen) <= amount(was) + backWithin && fell > 0 && used < rise / 2;
  return isBack ? { ledger: undoChange(ledger, last), wobble: rise } : none;
}

function amount({ sheetsLeft, leftPct }: Meter): number {
  return sheetsLeft ?? leftPct ?? 0;
}

function figureOf({ sheets, leftPct }: MediaBase): number {
  return sheets ?? leftPct ?? 0;
}

function jumpedBase(marks: MediaMarks, { sheetsLeft: sheets, leftPct, atMs, pitchesAt }: Meter): MediaBase {
  const said = { sheets, leftPct: sheets === null ? leftPct : null, pitchesAt };
  return { ...baseAt(marks, atMs), basis: "jumped", ...said };
}
