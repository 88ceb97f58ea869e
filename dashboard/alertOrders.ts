import type { Clock, Matter, NoticeSettings } from "@boothward/shared-types";
import type { Units } from "./alerts/format.ts";
import type { OwnTrouble } from "./alerts/ownTrouble.ts";
import type { Reach } from "./alerts/scene.ts";
import type { AlertOrder } from "./alerts/stepBooth.ts";
import { trustOf, type Trust } from "./alerts/trust.ts";
import type { BookedTime } from "./booth/bookingWindows.ts";
import type { Live } from "./live/openLive.ts";
import { readNoticeSettings } from "./notify/noticeSettings.ts";
import type { Store } from "./store/openStore.ts";

/** Ways to reach people and choices change seldom; a new one counts after so long at the latest. */
const readEveryMs = 5_000;

/** How alerts are to be handled at a booth now: read from the store now and then, asked at each step. */
export type AlertOrders = {
  readonly of: (boothId: string, booking: BookedTime | null) => AlertOrder & { readonly reach: Reach };
  /** What notices speak. */
  readonly units: () => Units;
  /** How far forecasts have earned to be listened to; nothing is scored yet, so it is the number of events alone. */
  readonly trust: () => Trust;
  tick(): Promise<void>;
};

type Known = {
  readonly settings: NoticeSettings;
  readonly rulesOff: ReadonlySet<Matter>;
  readonly hasOwner: boolean;
  /** Bookings whose attendants can be told with the page closed. */
  readonly attended: ReadonlySet<string>;
  readonly trust: Trust;
};

export async function openAlertOrders(
  { store, clock }: { readonly store: Store; readonly clock: Clock },
  ownTrouble: () => OwnTrouble,
  /** Open pages are a way too. */
  live: Pick<Live, "isAttended" | "isOwnerThere">,
): Promise<AlertOrders> {
  let known = await readKnown(store, clock().wallMs);
  let readMonoMs = clock().monoMs;

  return {
    of(boothId, booking) {
      const { settings, rulesOff, hasOwner, attended } = known;
      const hasAttendant = attended.has(booking?.bookingId ?? "") || live.isAttended(boothId);
      const reach = { hasOwner: hasOwner || live.isOwnerThere(), hasAttendant };
      return { routing: settings, rulesOff, reach, own: ownTrouble() };
    },
    units: () => known.settings.units,
    trust: () => known.trust,
    async tick() {
      const { wallMs, monoMs } = clock();
      if (monoMs - readMonoMs < readEveryMs) return;
      readMonoMs = monoMs;
      known = await readKnown(store, wallMs);
    },
  };
}

async function readKnown(store: Store, atMs: number): Promise<Known> {
  const settings = await readNoticeSettings(store.settings, null);
  const { hasOwner, bookingIds } = await store.whoHears(atMs);
  return {
    settings,
    rulesOff: new Set(settings.rulesOff),
    hasOwner,
    attended: new Set(bookingIds),
    trust: trustOf(await store.bookings.countClosed(atMs), {}),
  };
}
