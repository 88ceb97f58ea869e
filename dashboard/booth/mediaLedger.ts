import type { StoredItem } from "@boothward/shared-types";
import { binOf, keepRecent, type Bin } from "./bins.ts";
import { withEntry } from "./keyed.ts";
import { isSameBase, type MediaBase, type MediaMarks, type Meter, type RollChange } from "./mediaMarks.ts";
import { hasFigure, isCount, meterOf, riseOf, useAhead } from "./meters.ts";
import { isDenied, withDenial, type Suspicion } from "./suspicions.ts";

/**
 * What was said and counted of paper and ribbon, without settings: what a full kit holds comes in where a
 * figure is made (`mediaNow`). The marks are one moment's knowledge; the trail keeps them per five-minute bin
 * and on both sides of a roll change.
 */
export type MediaLedger = {
  readonly marks: MediaMarks;
  readonly trail: readonly TrailPoint[];
  /** Rolls put in and taken off, oldest first. */
  readonly changes: readonly RollChange[];
  /** Rises of a meter that prove no change, and changes that a person denied. */
  readonly suspicions: readonly Suspicion[];
  /** Instants of which a person said that no roll was fitted then. */
  readonly denials: readonly number[];
  /** Whether the printer says that it is empty, or said so and no longer does, without a print since. */
  readonly emptiness: { readonly fromAtMs: number; readonly isOver: boolean } | null;
};

export type TrailPoint = {
  readonly atMs: number;
  readonly marks: MediaMarks;
  /** Kept although another point lies in its bin: a side of a roll change. */
  readonly isEdge: boolean;
};

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

const minuteMs = 60_000;

/** A meter's jump, a person's word about the same roll, and the waste of fitting it come within this time. */
const sameChangeMs = 15 * minuteMs;

/** The last job of a roll is told of so long after the roll was taken off. */
const lastJobMs = minuteMs;

/** More changes than a long weekend has; a roll set aside before is no longer known to be aboard. */
const changesKept = 40;

/** Points, in the meter's own unit, within which a figure is back where it was. */
const backWithin = 2;

export const emptyMedia: MediaLedger = {
  marks: { pitchesEver: 0, countedAtMs: null, meters: [], base: null },
  trail: [],
  changes: [],
  suspicions: [],
  denials: [],
  emptiness: null,
};

/** Takes in pitches that were printed. */
export function foldPitches(ledger: MediaLedger, pitches: number, atMs: number): MediaLedger {
  const before = startsNewRoll(ledger, atMs) ? assumeRoll(ledger, atMs) : ledger;
  const emptiness = before.emptiness?.isOver === true ? null : before.emptiness;
  return { ...withMarks(before, withUsed(before.marks, pitches, atMs, false), atMs), emptiness };
}

/** Takes in sheets that a person counted as waste. At a change they take the place of the usual waste. */
export function foldWaste(ledger: MediaLedger, item: ItemOf<"waste">): MediaLedger {
  const { base } = ledger.marks;
  const { atMs, pitches, cause } = item;
  const isOfChange = cause === "change" && base !== null && atMs - base.atMs <= sameChangeMs;
  const marks = isOfChange ? { ...ledger.marks, base: { ...base, isWasteSaid: true } } : ledger.marks;
  return withMarks(ledger, withUsed(marks, pitches, atMs, true), atMs);
}

/** Takes in what a meter says. A part without a figure is put aside: unknown is not its last value. */
export function foldMeter(ledger: MediaLedger, item: ItemOf<"media">, bins: readonly Bin[]): MediaLedger {
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
  const rise = old === null ? "none" : riseOf(calm.ledger.marks.base, old, seen, bins);
  const risen = rise === "none" ? calm.ledger : takeRise(calm.ledger, seen, rise === "change", item.atMs);
  const meters = withEntry(risen.marks.meters, (each) => each.key, seen);
  return withMarks(risen, { ...risen.marks, meters }, item.atMs);
}

/** Takes in a person's word that a roll was put in. */
export function foldRollFitted(ledger: MediaLedger, item: ItemOf<"rollFitted">): MediaLedger {
  const { marks, changes } = ledger;
  const { atMs, sheets, by } = item;
  const last = changes.at(-1);
  if (last !== undefined && isSameBase(last.base, marks.base) && isSameChange(marks, marks.base, atMs)) {
    const base = { ...marks.base, basis: "fitted" as const, sheets, leftPct: null, by };
    const known = { ...ledger, changes: [...changes.slice(0, -1), { ...last, base }] };
    return withMarks(known, { ...marks, base }, atMs);
  }
  return changeRoll(ledger, { ...baseAt(marks, atMs), basis: "fitted", sheets, by }, null, atMs);
}

/** Takes in that a roll came off before its end. */
export function foldRollTakenOff(ledger: MediaLedger, item: ItemOf<"rollTakenOff">): MediaLedger {
  const { atMs, sheetsLeft: sheets, by } = item;
  return changeRoll(ledger, { ...baseAt(ledger.marks, atMs), basis: "off", sheets, by }, null, atMs);
}

/** Takes in a person's count of what is left. */
export function foldCorrection(ledger: MediaLedger, item: ItemOf<"correction">): MediaLedger {
  const { atMs, sheetsLeft: sheets, by } = item;
  const metersThen = ledger.marks.meters.filter((meter) => !meter.isLost);
  const base = { ...baseAt(ledger.marks, atMs), basis: "corrected" as const, sheets, by, metersThen };
  return withMarks(ledger, { ...ledger.marks, base }, atMs);
}

/**
 * Takes in a person's word that no roll was fitted. It means the suspected change at its own instant, else the
 * last one before it.
 */
export function foldRollDenied(ledger: MediaLedger, { atMs }: ItemOf<"rollDenied">): MediaLedger {
  const last = ledger.changes.at(-1);
  const isSeen = last !== undefined && isSameBase(last.base, ledger.marks.base) && isSuspected(last.base);
  const undone = isSeen ? undoChange(ledger, last) : ledger;
  const said = isSeen ? { atMs: last.base.atMs, ...amountOf(last.base), isDenied: true } : null;
  const suspicions = withDenial(said === null ? undone.suspicions : [...undone.suspicions, said], atMs);
  return { ...undone, suspicions, denials: [...undone.denials.slice(1 - changesKept), atMs] };
}

/** Takes in whether the printer says that it has run out. */
export function foldEmptySaid(ledger: MediaLedger, isEmpty: boolean, atMs: number): MediaLedger {
  const { emptiness } = ledger;
  if (isEmpty)
    return emptiness?.isOver === false ? ledger : { ...ledger, emptiness: { fromAtMs: atMs, isOver: false } };
  return emptiness?.isOver === false ? { ...ledger, emptiness: { ...emptiness, isOver: true } } : ledger;
}

/** Whether a print at `atMs` shows that a roll is in of which nobody told. */
function startsNewRoll({ emptiness, marks: { base } }: MediaLedger, atMs: number): boolean {
  if (base?.basis === "off") return atMs - base.atMs > lastJobMs;
  if (emptiness?.isOver !== true) return false;
  return base === null || base.basis === "corrected" || base.atMs < emptiness.fromAtMs;
}

function assumeRoll(ledger: MediaLedger, atMs: number): MediaLedger {
  const base = { ...baseAt(ledger.marks, atMs), basis: "assumed" as const };
  return isDenied(ledger.denials, atMs)
    ? withSuspicion(ledger, { atMs, ...amountOf(base), isDenied: true })
    : changeRoll(ledger, base, null, atMs);
}

/** A meter that rose: a change of the roll, unless a person denied it or prints go on. */
function takeRise(ledger: MediaLedger, meter: Meter, isChange: boolean, atMs: number): MediaLedger {
  const base = jumpedBase(ledger.marks, meter);
  if (isChange && !isDenied(ledger.denials, meter.atMs)) return changeRoll(ledger, base, meter.key, atMs);
  const isDeniedNow = isDenied(ledger.denials, meter.atMs);
  return withSuspicion(ledger, { atMs: meter.atMs, ...amountOf(base), isDenied: isDeniedNow });
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

/** A full kit put in at this moment, to be made more of. */
function baseAt({ pitchesEver: pitchesAt }: MediaMarks, atMs: number): MediaBase {
  return {
    ...{ basis: "fitted", sheets: null, leftPct: null, atMs, pitchesAt, by: null },
    ...{ isWasteSaid: false, metersThen: [] },
  };
}

/** Whether a person's word at `atMs` is about the change that `base` already knows. */
function isSameChange(marks: MediaMarks, base: MediaBase | null, atMs: number): base is MediaBase {
  if (base === null || isCount(base) || atMs - base.atMs > sameChangeMs) return false;
  return base.basis !== "fitted" || marks.pitchesEver === base.pitchesAt;
}

/** Nobody told of it. */
function isSuspected({ basis }: MediaBase): boolean {
  return basis === "jumped" || basis === "assumed";
}

function amountOf({ sheets, leftPct }: MediaBase): Pick<Suspicion, "sheets" | "leftPct"> {
  return { sheets, leftPct };
}

function changeRoll(
  ledger: MediaLedger,
  base: MediaBase,
  meterKey: string | null,
  atMs: number,
): MediaLedger {
  const before = ledger.marks;
  const marks = { ...before, base };
  const trail = [...ledger.trail, { atMs, marks: before, isEdge: true }, { atMs, marks, isEdge: true }];
  const changes = [...ledger.changes.slice(1 - changesKept), { base, before, meterKey }];
  return { ...ledger, marks, trail, changes, emptiness: null };
}

/** The ledger as it would be without its last change: the trail since then too. */
function undoChange(ledger: MediaLedger, { base, before }: RollChange): MediaLedger {
  const isIts = (marks: MediaMarks) => isSameBase(marks.base, base);
  const without = (marks: MediaMarks) => (isIts(marks) ? { ...marks, base: before.base } : marks);
  return {
    ...ledger,
    marks: without(ledger.marks),
    trail: ledger.trail.map((point) =>
      isIts(point.marks) ? { ...point, marks: without(point.marks) } : point,
    ),
    changes: ledger.changes.filter((change) => !isSameBase(change.base, base)),
  };
}

function withSuspicion(ledger: MediaLedger, suspicion: Suspicion): MediaLedger {
  return { ...ledger, suspicions: [...ledger.suspicions.slice(1 - changesKept), suspicion] };
}

function withUsed(marks: MediaMarks, pitches: number, atMs: number, isWaste: boolean): MediaMarks {
  return {
    ...marks,
    pitchesEver: marks.pitchesEver + pitches,
    countedAtMs: atMs,
    meters: marks.meters.map((meter) => useAhead(meter, pitches, atMs, isWaste)),
  };
}

/** The ledger with newer marks; the trail's last point moves on within its bin. */
function withMarks(ledger: MediaLedger, marks: MediaMarks, atMs: number): MediaLedger {
  const last = ledger.trail.at(-1);
  const isSameBin = last !== undefined && !last.isEdge && binOf(last.atMs) === binOf(atMs);
  const before = isSameBin ? ledger.trail.slice(0, -1) : keepRecent(ledger.trail, binOf(atMs));
  return { ...ledger, marks, trail: [...before, { atMs, marks, isEdge: false }] };
}
