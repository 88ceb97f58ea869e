import type { Outlook } from "@boothward/shared-types";
import { isOpenAt, type BookedTime } from "../booth/bookingWindows.ts";
import type { BoothState } from "../booth/boothState.ts";
import type { SheetPace } from "../booth/sheetPaces.ts";
import { coolingPauseCost } from "./air/coolingPause.ts";
import { printerPace, type PrinterPace } from "./air/printerSlowing.ts";
import { capacityPerMin } from "./demand/capacity.ts";
import type { DemandInput } from "./demand/demandInput.ts";
import { sheetMs } from "./queue/waits.ts";

/** Long enough for a warm head to cool in air that is not too warm (common practice, no source). */
const pauseMinutes = 10;

const msPerHour = 3_600_000;

/** Whether the printer slows down, of several the one that does most. */
export function slowingOf({ paces }: Pick<BoothState["readings"], "paces">): PrinterPace | null {
  const slowing = paces
    .map(({ intervals }: SheetPace) => printerPace(intervals))
    .filter(({ pace }) => pace === "slowingWithHeat" || pace === "slowingOtherwise");
  return slowing.reduce<PrinterPace | null>(
    (most, each) => (shareOf(each) > shareOf(most) ? each : most),
    null,
  );
}

function shareOf(pace: PrinterPace | null): number {
  return pace === null ? 0 : (pace.lateS ?? 0) / (pace.usualS ?? 1);
}

/**
 * What is to be seen of the printer's own pace, and what a pause to let it cool would cost in guests, while the booth
 * is open: the booth takes as many as its gaps between sessions show, and its printer as many as it prints for.
 */
export function printerAhead(
  { readings }: Pick<BoothState, "readings">,
  booking: BookedTime,
  { sessions }: Pick<DemandInput, "sessions">,
  { sheetsPerHour, sheetsPerSession }: { readonly sheetsPerHour: number; readonly sheetsPerSession: number },
  atMs: number,
): Outlook["printer"] {
  if (!isOpenAt(booking, atMs)) return null;
  const pace = slowingOf(readings);
  const guestsPerHour = sheetsPerHour / Math.max(1, sheetsPerSession);
  const aSheetMs = pace?.lateS === null || pace === null ? sheetMs : pace.lateS * 1000;
  const printed = msPerHour / (aSheetMs * Math.max(1, sheetsPerSession));
  const seen = sessions.filter((session) => session.atMs <= atMs).map((session) => session.atMs);
  const taken = capacityPerMin(seen, guestsPerHour / 60);
  const capacityPerHour = Math.min(printed, taken === null ? Infinity : taken * 60);
  const cost = coolingPauseCost({ pauseMinutes, guestsPerHour, capacityPerHour });
  return { slowing: pace === null ? null : slowingView(pace), pause: { pauseMinutes, cost } };
}

function slowingView({ pace, usualS, lateS }: PrinterPace) {
  return { isByHeat: pace === "slowingWithHeat", usualS: usualS ?? 0, lateS: lateS ?? 0 };
}
