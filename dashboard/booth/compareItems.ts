import type { StoredItem } from "@boothward/shared-types";

/**
 * The one order in which a booth's items are folded: true time, then source, then sequence number.
 * Two boots of one agent may share all three, so the boot decides last: with it the order is total.
 *
 * Returns a negative number when `a` comes first, 0 only for one and the same item.
 */
export function compareItems(a: StoredItem, b: StoredItem): number {
  return (
    a.atMs - b.atMs || compareText(a.source, b.source) || a.seq - b.seq || compareText(a.bootId, b.bootId)
  );
}

/** By code unit: the same on every machine, unlike a locale's order. */
function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
