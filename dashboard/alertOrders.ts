import { noticeSettings, type Clock, type Matter } from "@boothward/shared-types";
import type { OwnTrouble } from "./alerts/quieten.ts";
import type { Reachable } from "./alerts/routing.ts";
import type { AlertOrder } from "./alerts/stepBooth.ts";
import type { BookedTime } from "./booth/bookingWindows.ts";
import type { Store } from "./store/openStore.ts";

/** Ways to reach people and choices change seldom; a new one counts after so long at the latest. */
const readEveryMs = 5_000;

/** Forecast alerts are "soon" at most for so many events: until they have been scored. */
const trustedAfterEvents = 3;

/** How alerts are to be handled at a booth now: read from the store now and then, asked at each step. */
export type AlertOrders = {
  readonly of: (boothId: string, booking: BookedTime | null) => AlertOrder;
  /** Whom the booth's alerts can reach, as it was last read. */
  readonly reachableAt: (boothId: string, booking: BookedTime | null) => Reachable;
  /** Something of it was changed: read it anew before the next step. */
  readonly onChange: () => void;
  tick(): Promise<void>;
};

type Known = {
  readonly settings: ReturnType<typeof noticeSettings.parse>;
  readonly rulesOff: ReadonlySet<Matter>;
  readonly hasOwner: boolean;
  /** Bookings whose attendants can be told with the page closed. */
  readonly attended: ReadonlySet<string>;
  readonly isTrusted: boolean;
};

export async function openAlertOrders(
  { store, clock }: { readonly store: Store; readonly clock: Clock },
  ownTrouble: () => OwnTrouble,
  /** Whether an attendant's page of the booth is open. */
  isAttended: (boothId: string) => boolean,
): Promise<AlertOrders> {
  let known = await readKnown(store, clock().wallMs);
  let readMonoMs = clock().monoMs;

  const reachableAt = (boothId: string, booking: BookedTime | null): Reachable => ({
    hasOwner: known.hasOwner,
    hasAttendant: known.attended.has(booking?.bookingId ?? "") || isAttended(boothId),
  });
  return {
    reachableAt,
    of(boothId, booking) {
      const { settings, rulesOff, isTrusted } = known;
      const { escalateAfterMin, repeatEveryMin } = settings;
      const routing = { escalateAfterMin, repeatEveryMin };
      return { routing, rulesOff, isTrusted, reachable: reachableAt(boothId, booking), own: ownTrouble() };
    },
    onChange: () => (readMonoMs = -Infinity),
    async tick() {
      const { wallMs, monoMs } = clock();
      if (monoMs - readMonoMs < readEveryMs) return;
      readMonoMs = monoMs;
      known = await readKnown(store, wallMs);
    },
  };
}

async function readKnown(store: Store, atMs: number): Promise<Known> {
  const settings = (await store.settings.get("notices", noticeSettings)) ?? noticeSettings.parse({});
  const { hasOwner, bookingIds } = await store.whoHears(atMs);
  const bookings = await store.bookings.all();
  return {
    settings,
    rulesOff: new Set(settings.rulesOff),
    hasOwner,
    attended: new Set(bookingIds),
    isTrusted: bookings.filter(({ closeAtMs }) => closeAtMs <= atMs).length >= trustedAfterEvents,
  };
}
