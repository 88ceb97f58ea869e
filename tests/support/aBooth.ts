import type { StoredItem } from "@boothward/shared-types";
import type { BoothSettings } from "../../dashboard/booth/boothSettings.ts";
import { emptyBooth, reduceBooth, type BoothState } from "../../dashboard/booth/boothState.ts";
import { compareItems } from "../../dashboard/booth/compareItems.ts";
import { aStory, type StoryLine } from "./aStoredItem.ts";

/** Set-up of a booth with kits of 400 sheets and a limit of 40 °C. */
export function aBooth(over: Partial<BoothSettings> = {}): BoothSettings {
  return { boothId: "juniper", name: "Juniper", isTrailer: false, kitSheets: 400, limitC: 40, ...over };
}

/** The state after these items, folded in their one order. */
export function stateAfter(items: readonly StoredItem[]): BoothState {
  return [...items].sort(compareItems).reduce(reduceBooth, emptyBooth("juniper"));
}

/** The state after a story. */
export function stateOf(lines: readonly StoryLine[]): BoothState {
  return stateAfter(aStory(lines));
}
