import type { StoredItem } from "@boothward/shared-types";
import { amountOf, baseAt, changeRoll, changesKept, knowChange, sameChangeMs } from "./mediaLedger.ts";
import { undoChange, withMarks, withSuspicion, type MediaLedger } from "./mediaLedger.ts";
import { isSameBase, type MediaBase, type MediaMarks } from "./mediaMarks.ts";
import { isCount } from "./meters.ts";
import { isMeant, suspicionMeant, withDenied } from "./suspicions.ts";

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

/** Takes in a person's word that a roll was put in. */
export function foldRollFitted(ledger: MediaLedger, item: ItemOf<"rollFitted">): MediaLedger {
  const { marks, changes } = ledger;
  const { atMs, sheets, by } = item;
  const last = changes.at(-1);
  if (last !== undefined && isSameBase(last.base, marks.base) && isSameChange(marks, marks.base, atMs)) {
    const base = { ...marks.base, basis: "fitted" as const, sheets, leftPct: null, by };
    const known = knowChange(ledger, last, base);
    return withMarks(known, known.marks, atMs);
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
  // One that has not spoken since this roll was put in says nothing of it.
  const sinceAtMs = ledger.changes.at(-1)?.base.atMs ?? -Infinity;
  const metersThen = ledger.marks.meters.filter((meter) => !meter.isLost && meter.atMs >= sinceAtMs);
  const base = { ...baseAt(ledger.marks, atMs), basis: "corrected" as const, sheets, by, metersThen };
  return withMarks(ledger, { ...ledger.marks, base }, atMs);
}

/**
 * Takes in a person's word that no roll was fitted. It means the change that nobody told of, or the suspicion,
 * at its own instant; when there is neither, the later of those that came a moment before. A change that the
 * meter tells of only later finds the denial.
 */
export function foldRollDenied(ledger: MediaLedger, { atMs }: ItemOf<"rollDenied">): MediaLedger {
  const denials = [...ledger.denials.slice(1 - changesKept), atMs];
  const last = ledger.changes.at(-1);
  const isOpen = last !== undefined && isSameBase(last.base, ledger.marks.base) && isSuspected(last.base);
  const change = isOpen && isMeant(atMs, last.base.atMs) ? last : null;
  const suspicion = suspicionMeant(ledger.suspicions, atMs);
  const nearness = (each: number) => Math.abs(each - atMs);
  if (change === null || (suspicion !== null && nearness(suspicion.atMs) < nearness(change.base.atMs))) {
    return { ...ledger, suspicions: withDenied(ledger.suspicions, suspicion), denials };
  }
  const said = { atMs: change.base.atMs, ...amountOf(change.base), isDenied: true };
  return { ...withSuspicion(undoChange(ledger, change), said), denials };
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
