import type { Booth } from "../../dashboard/store/booths.ts";

/** A booth as the store keeps it: Juniper, no trailer, with rolls of 400 sheets. */
export function aBoothRow(over: Partial<Booth> = {}): Booth {
  return {
    ...{ boothId: "juniper", name: "Juniper", isTrailer: false, kitSheets: 400, limitC: 40, box: null },
    ...over,
  };
}
