import type { StoredItem } from "@boothward/shared-types";

/** A print of which the size was seen, in inches, the shorter side first. */
export type SizeSeen = { readonly atMs: number; readonly size: string };

/** A few groups of guests; what was printed before says nothing of how the booth is set now. */
const sizesKept = 20;

/** Takes in a print's size where its source knows it. */
export function foldSize(
  sizes: readonly SizeSeen[],
  { atMs, size }: Extract<StoredItem, { kind: "print" }>,
): readonly SizeSeen[] {
  return size === null ? sizes : [...sizes.slice(1 - sizesKept), { atMs, size }];
}
