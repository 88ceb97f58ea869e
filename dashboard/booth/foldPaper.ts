import type { StoredItem } from "@boothward/shared-types";
import { amountOf, baseAt, changeRoll, sameChangeMs, withMarks, withSuspicion } from "./mediaLedger.ts";
import type { MediaLedger } from "./mediaLedger.ts";
import type { MediaMarks, Meter } from "./mediaMarks.ts";
import { useAhead, useChangeWaste } from "./meters.ts";
import { isDenied } from "./suspicions.ts";

type WasteItem = Extract<StoredItem, { kind: "waste" }>;

/** The last job of a roll is told of so long after the roll was taken off. */
const lastJobMs = 60_000;

/** Takes in pitches that were printed. */
export function foldPitches(ledger: MediaLedger, pitches: number, atMs: number): MediaLedger {
  const before = startsNewRoll(ledger, atMs) ? assumeRoll(ledger, atMs) : ledger;
  const emptiness = before.emptiness?.isOver === true ? null : before.emptiness;
  const used = withUsed(before.marks, pitches, atMs, (meter) => useAhead(meter, pitches, atMs, false));
  return { ...withMarks(before, used, atMs), emptiness };
}

/** Takes in sheets that a person counted as waste. At a change they take the place of the usual waste. */
export function foldWaste(ledger: MediaLedger, { atMs, pitches, cause }: WasteItem): MediaLedger {
  const { marks } = ledger;
  const { base } = marks;
  if (cause !== "change" || base === null || atMs - base.atMs > sameChangeMs) {
    const used = withUsed(marks, pitches, atMs, (meter) => useAhead(meter, pitches, atMs, true));
    return withMarks(ledger, used, atMs);
  }
  const used = withUsed(marks, pitches, atMs, (meter) => useChangeWaste(meter, base, pitches));
  return withMarks(ledger, { ...used, base: { ...base, isWasteSaid: true } }, atMs);
}

/** Takes in whether a printer of the booth says that it has run out. */
export function foldEmptySaid(ledger: MediaLedger, isEmpty: boolean, atMs: number): MediaLedger {
  const isNow = ledger.emptiness?.isOver === false;
  if (isEmpty === isNow) return ledger;
  if (isEmpty) return { ...ledger, emptiness: { fromAtMs: atMs, isOver: false } };
  return { ...ledger, emptiness: ledger.emptiness === null ? null : { ...ledger.emptiness, isOver: true } };
}

/** Whether a print at `atMs` shows that a roll is in of which nobody told. */
function startsNewRoll({ emptiness, marks: { base } }: MediaLedger, atMs: number): boolean {
  if (base?.basis === "off") return atMs - base.atMs > lastJobMs;
  if (emptiness?.isOver !== true) return false;
  if (base === null || base.atMs < emptiness.fromAtMs) return true;
  // Who counts nothing on an empty printer has not put a roll in; who counts sheets has seen that it is not empty.
  return base.basis === "corrected" && base.sheets === 0;
}

function assumeRoll(ledger: MediaLedger, atMs: number): MediaLedger {
  const base = { ...baseAt(ledger.marks, atMs), basis: "assumed" as const };
  return isDenied(ledger.denials, atMs)
    ? withSuspicion(ledger, { atMs, ...amountOf(base), isDenied: true })
    : changeRoll(ledger, base, null, atMs);
}

function withUsed(
  marks: MediaMarks,
  pitches: number,
  atMs: number,
  meterAfter: (meter: Meter) => Meter,
): MediaMarks {
  const { pitchesEver, meters } = marks;
  return {
    ...marks,
    pitchesEver: pitchesEver + pitches,
    countedAtMs: atMs,
    meters: meters.map(meterAfter),
  };
}
