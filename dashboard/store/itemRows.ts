import type { AnyItem, KnownItem } from "@boothward/shared-types";
import type { FactRow, KeptAsideRow, ReadingRow } from "./tables.ts";

/** An item on its way in: its true time, and whether this version can read it. */
export type ItemToStore = {
  readonly item: AnyItem;
  /** True time, whole ms. */
  readonly atMs: number;
  readonly read:
    | { readonly as: "known"; readonly item: KnownItem }
    | { readonly as: "unknownKind" }
    | { readonly as: "keptAside"; readonly field: string };
};

/** An item with whose it is. */
export type Entry = ItemToStore & {
  readonly agentId: string;
  readonly bootId: string;
  readonly boothId: string;
  readonly receivedAtMs: number;
};

export const isFact = (entry: Entry) => entry.item.class === "fact";

function itemRow(entry: Entry) {
  const { agentId, bootId, boothId, receivedAtMs, atMs, item } = entry;
  const { seq, source, kind } = item;
  return { agentId, bootId, seq, boothId, source, kind, atMs, receivedAtMs, body: JSON.stringify(item) };
}

/** The row of a fact; it is counted by the columns that only its kind fills. */
export function factRow(entry: Entry): FactRow {
  const known = entry.read.as === "known" ? entry.read.item : null;
  return {
    ...itemRow(entry),
    onceKey: onceKey(known),
    pitches: known?.kind === "print" ? known.pitches : null,
  };
}

function onceKey(item: KnownItem | null): string | null {
  if (item?.kind === "session") return `session ${item.sessionId}`;
  return item?.kind === "print" ? `print ${item.printId}` : null;
}

export function readingRow(entry: Entry): ReadingRow {
  const known = entry.read.as === "known" ? entry.read.item : null;
  return { ...itemRow(entry), insideC: known?.kind === "inside" ? known.insideC : null };
}

export function keptAsideRow(entry: Entry): KeptAsideRow {
  const { agentId, bootId, seq, boothId, kind, receivedAtMs, body } = itemRow(entry);
  const field = entry.read.as === "keptAside" ? entry.read.field : "";
  return { agentId, bootId, seq, boothId, kind, receivedAtMs, field, body };
}
