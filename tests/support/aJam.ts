import type { StoryLine } from "./aStoredItem.ts";

/** A printer that is there half an hour before the doors, with a roll of 400 sheets ten minutes later. */
export const idle: StoryLine = [-30, "printerState"];
export const roll: StoryLine = [-20, "rollFitted", { sheets: 400 }];

/** It jams an hour after the doors opened, while its paper runs low. */
export const jam: StoryLine = [
  60,
  "printerState",
  { state: "stopped", reasons: ["media-low-warning", "media-jam-error"] },
];
