import { binOf, keepRecent } from "./bins.ts";
import { isSameBase, type MediaBase, type MediaMarks, type RollChange } from "./mediaMarks.ts";
import type { Suspicion } from "./suspicions.ts";

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

/** A meter's jump, a person's word about the same roll, and the waste of fitting it come within this time. */
export const sameChangeMs = 15 * 60_000;

/** More changes than a long weekend has; a roll set aside before is no longer known to be aboard. */
export const changesKept = 40;

export const emptyMedia: MediaLedger = {
  marks: { pitchesEver: 0, countedAtMs: null, meters: [], base: null },
  trail: [],
  changes: [],
  suspicions: [],
  denials: [],
  emptiness: null,
};

/** The ledger with newer marks; the trail's last point moves on within its bin. */
export function withMarks(ledger: MediaLedger, marks: MediaMarks, atMs: number): MediaLedger {
  const last = ledger.trail.at(-1);
  const isSameBin = last !== undefined && !last.isEdge && binOf(last.atMs) === binOf(atMs);
  const before = isSameBin ? ledger.trail.slice(0, -1) : keepRecent(ledger.trail, binOf(atMs));
  return { ...ledger, marks, trail: [...before, { atMs, marks, isEdge: false }] };
}

/** A full kit put in at this moment, to be made more of. */
export function baseAt({ pitchesEver: pitchesAt }: MediaMarks, atMs: number): MediaBase {
  return {
    ...{ basis: "fitted", sheets: null, leftPct: null, atMs, pitchesAt, by: null },
    ...{ isWasteSaid: false, metersThen: [] },
  };
}

/** The ledger with another roll, or none, in the printer. */
export function changeRoll(
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
export function undoChange(ledger: MediaLedger, { base, before }: RollChange): MediaLedger {
  const changes = ledger.changes.filter((change) => !isSameBase(change.base, base));
  return { ...withOtherBase(ledger, base, before.base), changes };
}

/** The ledger with more known of its last change: the trail since then too. */
export function knowChange(ledger: MediaLedger, change: RollChange, base: MediaBase): MediaLedger {
  const changes = [...ledger.changes.slice(0, -1), { ...change, base }];
  return { ...withOtherBase(ledger, change.base, base), changes };
}

function withOtherBase(ledger: MediaLedger, base: MediaBase, other: MediaBase | null): MediaLedger {
  const isIts = (marks: MediaMarks) => isSameBase(marks.base, base);
  const changed = (marks: MediaMarks) => (isIts(marks) ? { ...marks, base: other } : marks);
  return {
    ...ledger,
    marks: changed(ledger.marks),
    trail: ledger.trail.map((point) =>
      isIts(point.marks) ? { ...point, marks: changed(point.marks) } : point,
    ),
  };
}

/** The ledger with one more roll change that nothing proves, or that was denied. */
export function withSuspicion(ledger: MediaLedger, suspicion: Suspicion): MediaLedger {
  return { ...ledger, suspicions: [...ledger.suspicions.slice(1 - changesKept), suspicion] };
}

/** What a base says that the roll held. */
export function amountOf({ sheets, leftPct }: MediaBase): Pick<Suspicion, "sheets" | "leftPct"> {
  return { sheets, leftPct };
}
