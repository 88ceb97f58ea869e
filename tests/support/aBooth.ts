import type { StoredItem } from "@boothward/shared-types";
import type { BoothSettings } from "../../dashboard/booth/boothSettings.ts";
import type { BoothState } from "../../dashboard/booth/boothState.ts";
import { stateOfItems } from "../../dashboard/booth/timeline.ts";
import { aStory, type StoryLine } from "./aStoredItem.ts";

/** Set-up of a booth with kits of 400 sheets, a printer that wastes none at a change, and a limit of 40 °C. */
export function aBooth(over: Partial<BoothSettings> = {}): BoothSettings {
  const paper = { kitSheets: 400, changeWasteSheets: 0 };
  return { boothId: "juniper", name: "Juniper", isTrailer: false, ...paper, limitC: 40, box: null, ...over };
}

/** The state after these items, folded in their one order without the words that were taken back. */
export function stateAfter(items: readonly StoredItem[]): BoothState {
  return stateOfItems("juniper", items);
}

/** The state after a story. */
export function stateOf(lines: readonly StoryLine[]): BoothState {
  return stateAfter(aStory(lines));
}
