import type { BoothView } from "@boothward/shared-types/view";
import type { StripInput } from "./stripShape.ts";

/** Ends of an axis that several strips share. */
export type Axis = { fromAtMs: number; toAtMs: number };

/**
 * What the strip of a booth's evening is drawn from; null where there is nothing to draw: no open hours and
 * nothing counted.
 */
export function stripInput(
  booth: BoothView,
  nowMs: number,
  isOld: boolean,
  axis: Axis | null,
): StripInput | null {
  const openAtMs = booth.booking?.openAtMs ?? booth.past[0]?.atMs;
  if (openAtMs === undefined) return null;
  const closeAtMs = booth.booking?.closeAtMs ?? null;
  const endAtMs = closeAtMs ?? Math.max(nowMs, openAtMs + 60_000);
  const media = booth.outlook.media;
  // With no roll at hand there is nothing to change to, however quiet it gets.
  const change = isOld || media?.rolls.spares === 0 ? null : (media?.change ?? null);
  return {
    openAtMs,
    closeAtMs,
    fromAtMs: axis?.fromAtMs ?? openAtMs,
    toAtMs: axis?.toAtMs ?? endAtMs,
    nowMs,
    knownAtMs: isOld ? (booth.heardAtMs ?? openAtMs) : nowMs,
    kitSheets: booth.kitSheets,
    topSheets: null,
    past: booth.past,
    sheetsLeft: booth.media?.sheetsLeft ?? null,
    fan: media?.fan ?? [],
    emptyAtMs: media?.emptyAtMs ?? { p10: null, p50: null, p90: null },
    lull: change?.lull ?? null,
    changeAtMs: change?.advised.atMs ?? null,
    stoppedAtMs: stoppedSince(booth),
  };
}

function stoppedSince(booth: BoothView): number | null {
  const alert = booth.alerts.find((each) => each.matter === "printerStopped");
  if (alert !== undefined) return alert.sinceAtMs;
  return booth.printer?.state === "stopped" ? booth.printer.sinceAtMs : null;
}

/** From the first opening to the last close, in whole hours, with now inside it. */
export function sharedAxis(booths: readonly BoothView[], nowMs: number): Axis {
  const hourMs = 3_600_000;
  const bookings = booths.flatMap((booth) => booth.booking ?? []);
  const from = Math.min(nowMs, ...bookings.map((booking) => booking.openAtMs));
  const to = Math.max(nowMs, ...bookings.map((booking) => booking.closeAtMs));
  return {
    fromAtMs: Math.floor(from / hourMs) * hourMs,
    toAtMs: Math.max(Math.ceil(to / hourMs), Math.floor(from / hourMs) + 1) * hourMs,
  };
}
