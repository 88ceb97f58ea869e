import type { FanPoint } from "@boothward/shared-types";
import { sheetsAboard } from "../forecast/media/rollsToClose.ts";
import { noFigures, type Judged } from "./alert.ts";
import { standsOfChance } from "./judgeMedia.ts";
import type { Scene } from "./scene.ts";

/** Whether all the paper aboard, spares and all, is too short for the time left. */
export function judgeSpares(scene: Scene): Judged {
  const { outlook, shown, booking, settings, atMs } = scene;
  const matter = "sparesShort";
  if (booking === null || atMs >= booking.closeAtMs) return { matter, stands: "clear" };
  if (shown.media === null || outlook.media === null) return { matter, stands: "unseen" };
  const { spares, lastsChance, needed } = outlook.media.rolls;
  if (spares === null) return { matter, stands: "unseen" };
  // Without a spare the loaded roll is all there is, and its own alert asks for another: said once.
  const { partialRolls } = shown.media;
  if (spares === 0 && partialRolls.length === 0) return { matter, stands: "clear" };
  const stands = standsOfChance(lastsChance, matter, scene.trust);
  if (stands === "clear" || stands === "unseen") return { matter, stands };
  const { kitSheets } = settings;
  const beside = sheetsAboard(0, { kitSheets, spareRolls: spares, partialRolls }) ?? 0;
  const { fan } = outlook.media;
  return {
    ...noFigures,
    ...{ matter, stands, severity: "plan", since: null },
    byAtMs: usedUpAtMs(fan, beside, "p10"),
    emptyAtMs: usedUpAtMs(fan, beside, "p50"),
    ...{ sheetsLeft: shown.media.sheetsLeft, spareRolls: spares, rollsNeeded: needed },
  };
}

/** When what is left on the roll and the sheets beside it are used up; null: not before the close. */
function usedUpAtMs(fan: readonly FanPoint[], besideSheets: number, share: "p10" | "p50"): number | null {
  const at = fan.findIndex((point) => point[share] + besideSheets <= 0);
  const after = fan[at];
  if (after === undefined) return null;
  const before = fan[at - 1];
  if (before === undefined) return after.atMs;
  const [from, to] = [before[share] + besideSheets, after[share] + besideSheets];
  return before.atMs + ((after.atMs - before.atMs) * from) / (from - to);
}
