import type { Booking, SunStretch } from "@boothward/shared-types";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import { frameOf, sunSiteOf } from "./boothSite.ts";
import { localDay } from "./sun/sunDay.ts";
import { sunOnPrinter } from "./sun/sunOnPrinter.ts";

/** What was found for one booth at one booking; it is good as long as both stay as they are. */
export type SunMemo = {
  readonly settings: BoothSettings;
  readonly booking: BookedTime;
  readonly sun: SunStretch[] | null;
};

/**
 * When the sun reaches the printer on the day of a booking, up to its close, under a clear sky; null where it is
 * not known how the booth is built or stands.
 */
export function sunAheadOf(
  booking: BookedTime | null,
  settings: BoothSettings,
  before: SunMemo | null,
): SunMemo | null {
  if (booking === null) return null;
  if (before !== null && before.settings === settings && isSameDay(before.booking, booking)) return before;
  return { settings, booking, sun: sunOfBooking(booking, settings) };
}

/** The same, without a memo. */
export function sunOfBooking(booking: Booking, settings: BoothSettings): SunStretch[] | null {
  const frame = frameOf(settings, booking);
  const site = sunSiteOf(booking);
  if (frame === null || site === null) return null;
  const { fromMs, toMs } = localDay(booking.openAtMs, booking.zone);
  const stretches = sunOnPrinter(frame, site, { fromMs, toMs: Math.max(toMs, booking.closeAtMs) });
  return stretches.map((stretch) => ({ fromAtMs: stretch.fromMs, toAtMs: stretch.toMs }));
}

function isSameDay(a: BookedTime, b: BookedTime): boolean {
  const parts = ["bookingId", "openAtMs", "closeAtMs", "zone", "latitudeDeg", "longitudeDeg"] as const;
  return parts.every((part) => a[part] === b[part]) && a.standing === b.standing;
}
