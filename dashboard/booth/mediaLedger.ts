import type { StoredItem } from "@boothward/shared-types";
import { binOf, keepMs, keepRecent, type Bin } from "./bins.ts";
import { withEntry } from "./keyed.ts";
import type { MediaBase, MediaMarks, Meter } from "./mediaMarks.ts";
import { isRollChange, meterOf, useAhead } from "./meters.ts";

/**
 * What was said and counted of paper and ribbon, without settings: what a full kit holds comes in where a
 * figure is made (`mediaNow`). The marks are one moment's knowledge; the trail keeps them per five-minute bin
 * and on both sides of a roll change.
 */
export type MediaLedger = {
  readonly marks: MediaMarks;
  readonly trail: readonly TrailPoint[];
  readonly rollChangesAtMs: readonly number[];
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

/** A meter's jump and a person's word about the same roll come within this time. */
const sameChangeMs = 15 * minuteMs;

export const emptyMedia: MediaLedger = {
  marks: { pitchesEver: 0, countedAtMs: null, meters: [], base: null },
  trail: [],
  rollChangesAtMs: [],
  emptiness: null,
};

/** Takes in the pitches of one print job. */
export function foldPitches(ledger: MediaLedger, item: ItemOf<"print">): MediaLedger {
  const { atMs, pitches } = item;
  const isRefilled = ledger.emptiness?.isOver === true && !isNewerThanEmpty(ledger);
  const before = isRefilled ? changeRoll(ledger, assumedBase(ledger.marks, atMs), atMs) : ledger;
  const marks = {
    ...before.marks,
    pitchesEver: before.marks.pitchesEver + pitches,
    countedAtMs: atMs,
    meters: before.marks.meters.map((meter) => useAhead(meter, pitches, atMs)),
  };
  const emptiness = before.emptiness?.isOver === true ? null : before.emptiness;
  return { ...withMarks(before, marks, atMs), emptiness };
}

/** Takes in what a meter says. A part without a figure is forgotten: unknown is not its last value. */
export function foldMeter(ledger: MediaLedger, item: ItemOf<"media">, bins: readonly Bin[]): MediaLedger {
  const { marks } = ledger;
  const key = `${item.queue}\n${item.part}`;
  const old = marks.meters.find((meter) => meter.key === key) ?? null;
  if (item.sheetsLeft === null && item.leftPct === null) {
    return withMarks(ledger, { ...marks, meters: marks.meters.filter((meter) => meter !== old) }, item.atMs);
  }
  const meter = meterOf(key, old, item, marks, bins);
  const meters = withEntry(marks.meters, (each) => each.key, meter);
  const isNewRoll = old !== null && isRollChange(marks.base, old, meter, bins);
  const seen = isNewRoll ? changeRoll(ledger, jumpedBase(meter), item.atMs) : ledger;
  return withMarks(seen, { ...seen.marks, meters }, item.atMs);
}

/** Takes in a person's word that a roll was put in. */
export function foldRollFitted(ledger: MediaLedger, item: ItemOf<"rollFitted">): MediaLedger {
  const { marks } = ledger;
  const { atMs, sheets } = item;
  const fitted = { basis: "fitted" as const, sheets, leftPct: null };
  if (marks.base !== null && isSameChange(marks, marks.base, atMs)) {
    return withMarks(ledger, { ...marks, base: { ...marks.base, ...fitted } }, atMs);
  }
  return changeRoll(ledger, { ...fitted, atMs, pitchesAt: marks.pitchesEver }, atMs);
}

/** Takes in a person's count of what is left. */
export function foldCorrection(ledger: MediaLedger, item: ItemOf<"correction">): MediaLedger {
  const { atMs, sheetsLeft: sheets } = item;
  const pitchesAt = ledger.marks.pitchesEver;
  const base = { basis: "corrected" as const, sheets, leftPct: null, atMs, pitchesAt };
  return withMarks(ledger, { ...ledger.marks, base }, atMs);
}

/** Takes in whether the printer says that it has run out. */
export function foldEmptySaid(ledger: MediaLedger, isEmpty: boolean, atMs: number): MediaLedger {
  const { emptiness } = ledger;
  if (isEmpty)
    return emptiness?.isOver === false ? ledger : { ...ledger, emptiness: { fromAtMs: atMs, isOver: false } };
  return emptiness?.isOver === false ? { ...ledger, emptiness: { ...emptiness, isOver: true } } : ledger;
}

function jumpedBase(meter: Meter): MediaBase {
  const { sheetsLeft: sheets, leftPct, atMs, pitchesAt } = meter;
  return { basis: "jumped", sheets, leftPct: sheets === null ? leftPct : null, atMs, pitchesAt };
}

function assumedBase(marks: MediaMarks, atMs: number): MediaBase {
  return { basis: "assumed", sheets: null, leftPct: null, atMs, pitchesAt: marks.pitchesEver };
}

function isNewerThanEmpty({ emptiness, marks: { base } }: MediaLedger): boolean {
  return emptiness !== null && base !== null && base.basis !== "corrected" && base.atMs >= emptiness.fromAtMs;
}

/** Whether a person's word at `atMs` is about the change that `base` already knows. */
function isSameChange(marks: MediaMarks, base: MediaBase, atMs: number): boolean {
  if (base.basis === "corrected" || atMs - base.atMs > sameChangeMs) return false;
  return base.basis !== "fitted" || marks.pitchesEver === base.pitchesAt;
}

function changeRoll(ledger: MediaLedger, base: MediaBase, atMs: number): MediaLedger {
  const marks = { ...ledger.marks, base };
  const trail = [...ledger.trail, { atMs, marks: ledger.marks, isEdge: true }, { atMs, marks, isEdge: true }];
  const rollChangesAtMs = [...ledger.rollChangesAtMs.filter((each) => each >= atMs - keepMs), base.atMs];
  return { marks, trail, rollChangesAtMs, emptiness: null };
}

/** The ledger with newer marks; the trail's last point moves on within its bin. */
function withMarks(ledger: MediaLedger, marks: MediaMarks, atMs: number): MediaLedger {
  const last = ledger.trail.at(-1);
  const isSameBin = last !== undefined && !last.isEdge && binOf(last.atMs) === binOf(atMs);
  const before = isSameBin ? ledger.trail.slice(0, -1) : keepRecent(ledger.trail, binOf(atMs));
  return { ...ledger, marks, trail: [...before, { atMs, marks, isEdge: false }] };
}
