import type { BoothSettings } from "./booth/boothSettings.ts";
import type { BookedTime } from "./booth/bookingWindows.ts";
import { alertViewOf } from "./alerts/alertViews.ts";
import { formatIn, type Units } from "./alerts/format.ts";
import type { AlertNotice } from "./alerts/stepBooth.ts";
import { noticeText } from "./alerts/noticeText.ts";
import type { NewNotice } from "./store/notices.ts";

/** Notices as they are queued, each with its words: in the venue's time zone and the business's units. */
export function newNotices(
  notices: readonly AlertNotice[],
  of: {
    readonly settings: BoothSettings;
    readonly booking: BookedTime | null;
    readonly units: Units;
    readonly atMs: number;
    readonly newId: () => string;
  },
): NewNotice[] {
  const { settings, booking, units, atMs, newId } = of;
  const format = formatIn(booking?.zone ?? "UTC", units, units === "us" ? "en-US" : "en-GB");
  return notices.flatMap(({ alert, key, why, toRole }): NewNotice[] => {
    const view = alertViewOf(alert, atMs);
    if (view === null) return [];
    const text = noticeText(view, settings.name, settings.isTrailer, atMs, format);
    return [
      {
        ...{ noticeId: newId(), onceKey: `${alert.alertId}:${key}`, alertId: alert.alertId },
        ...{ boothId: alert.boothId, bookingId: booking?.bookingId ?? null, why, severity: alert.severity },
        ...{ toRole, toPersonId: null, text, createdAtMs: atMs, dueAtMs: atMs },
      },
    ];
  });
}
