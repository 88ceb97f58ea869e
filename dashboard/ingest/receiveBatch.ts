import { knownItem, knownKinds, type AnyItem, type BatchFrame } from "@boothward/shared-types";
import type { ItemToStore } from "../store/itemRows.ts";
import type { BatchToStore } from "../store/storeBatches.ts";
import type { BootClock } from "./bootClock.ts";
import { correctedAtMs } from "./correctedAtMs.ts";
import { issueOf } from "./readFrame.ts";

/** Whose batch it is and what is known of its clocks. */
export type BatchOrigin = {
  readonly agentId: string;
  readonly boothId: string;
  /** The clock of the boot that the batch names. */
  readonly clock: BootClock;
  /** How far the agent's wall clock is behind true time now, ms; null unknown. */
  readonly wallBehindMs: number | null;
  readonly receivedAtMs: number;
};

/**
 * Makes a batch ready for the store: every item with its true time, and read where this version can.
 * `claimsFuture` says that an item's clock claimed a later time than now.
 */
export function receiveBatch(
  frame: BatchFrame,
  origin: BatchOrigin,
): { batch: BatchToStore; claimsFuture: boolean } {
  const { agentId, boothId, clock, wallBehindMs, receivedAtMs } = origin;
  const timed = frame.items.map((item) => ({
    item,
    ...correctedAtMs(item, clock, wallBehindMs, receivedAtMs),
  }));
  const items = timed.map(({ item, atMs }) => ({ item, atMs, read: readItem(item) }));
  const { bootId, afterSeq } = frame;
  return {
    batch: { agentId, boothId, bootId, afterSeq, receivedAtMs, items },
    claimsFuture: timed.some(({ isFromFuture }) => isFromFuture),
  };
}

/** Reads an item; one of a known kind with a wrong field is kept aside with the field's name, [I9]. */
export function readItem(item: AnyItem): ItemToStore["read"] {
  if (!knownKinds.has(item.kind)) return { as: "unknownKind" };
  const read = knownItem.safeParse(item);
  if (read.success) return { as: "known", item: read.data };
  const [, field] = issueOf(read.error);
  return { as: "keptAside", field: field ?? "kind" };
}
