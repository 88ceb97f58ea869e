import type { Booking, BoothView, ChecksView, PlanView, StoredItem } from "@boothward/shared-types";
import { isInvented } from "./advanceBooth.ts";
import { bookingWindows, type BookedTime } from "./booth/bookingWindows.ts";
import type { BoothsAtWork, KnownBooth } from "./boothsAtWork.ts";
import { sunOfBooking } from "./forecast/index.ts";
import type { KnownEvenings } from "./knownEvenings.ts";
import { readyBy } from "./planning/clashes.ts";
import { loadOut } from "./planning/loadOut.ts";
import { openingChecks } from "./planning/openingChecks.ts";
import { powerSum } from "./planning/powerSum.ts";
import { nextReadiness } from "./planning/readinessSteps.ts";
import { rollsToBring } from "./planning/rollsToBring.ts";
import { setUpFacts } from "./planning/setUpFacts.ts";
import type { Store } from "./store/openStore.ts";

type With = {
  readonly store: Store;
  readonly evenings: Pick<KnownEvenings, "before">;
  readonly booths: Pick<BoothsAtWork, "knownOf">;
};

const hourMs = 3_600_000;

/** An agent says what stands beside its computer when it starts, which may be the day before. */
const peersBeforeMs = 36 * hourMs;
/** The van is loaded the evening before, checks are made on the day; nobody may have said yet that it is packed. */
const loadedBeforeMs = 48 * hourMs;
const checkedBeforeMs = 12 * hourMs;
/** Readings come each half minute; one of so long ago still tells of a disk. */
const readingsMs = 10 * 60_000;

/** What follows from a booking as it is planned; null: no such booking. */
export async function planOfBooking(with_: With, bookingId: string, atMs: number): Promise<PlanView | null> {
  const { store, evenings, booths } = with_;
  const booking = await store.bookings.byId(bookingId);
  const known = booking === null ? null : booths.knownOf(booking.boothId);
  if (booking === null || known === null) return null;
  const { settings, state } = known;
  const beforeAtMs = Math.min(atMs, booking.openAtMs);
  const past = await evenings.before(booking.eventKind, isInvented(state), beforeAtMs);
  const rolls = rollsToBring(booking, settings.kitSheets, past);
  const sun = sunOfBooking(booking, settings);
  const ticksFromAtMs = ticksFrom(booking, known, loadedBeforeMs);
  const { toAtMs } = heldOf(booking, known);
  const facts = await store.boothItems.factsBetween(booking.boothId, { fromAtMs: ticksFromAtMs, toAtMs });
  const { ticks } = setUpFacts(facts, { fromAtMs: ticksFromAtMs, ticksFromAtMs });
  const openHours = (booking.closeAtMs - booking.openAtMs) / hourMs;
  return {
    ...{ booking, boothName: settings.name, rolls, sun },
    power: booking.power === null ? null : powerSum(booking.power, openHours),
    loadOut: loadOut(
      { booking, rolls, isTrailer: settings.isTrailer, hasSun: sun !== null && sun.length > 0 },
      ticks,
    ),
  };
}

/** The opening checks of a booking; null: no such booking, or nothing of its booth was shown yet. */
export async function checksOfBooking(
  { store, booths }: Pick<With, "store" | "booths">,
  bookingId: string,
  atMs: number,
): Promise<ChecksView | null> {
  const booking = await store.bookings.byId(bookingId);
  const known = booking === null ? null : booths.knownOf(booking.boothId);
  const view = known?.view ?? null;
  if (booking === null || known === null || view === null) return null;
  const held = heldOf(booking, known);
  const around = { fromAtMs: held.fromAtMs - peersBeforeMs, toAtMs: held.toAtMs + 1 };
  const facts = setUpFacts(await store.boothItems.factsBetween(booking.boothId, around), {
    ...{ fromAtMs: held.fromAtMs, ticksFromAtMs: ticksFrom(booking, known, checkedBeforeMs) },
  });
  const lately = { factsAtMs: atMs, readingsAtMs: atMs - readingsMs };
  const diskFreeMb = diskIn(await store.boothItems.since(booking.boothId, lately));
  const { boothId, client, place, zone, openAtMs, closeAtMs } = held;
  return {
    ...{ bookingId, boothId, boothName: known.settings.name, client, place, zone, openAtMs, closeAtMs },
    readyByAtMs: readyBy(held),
    checks: openingChecks({ booking: held, view: viewFor(booking, view), facts, diskFreeMb, atMs }),
    readiness: facts.readiness,
    next: [...nextReadiness(facts.readiness?.to ?? null)],
  };
}

/** The booking with its close as extended and its stretch of time; one that others left no time keeps its hours. */
export function heldOf(booking: Booking, { bookings, state }: KnownBooth): BookedTime {
  const windows = bookingWindows(bookings, state);
  const held = windows.find((window) => window.booking?.bookingId === booking.bookingId)?.booking;
  return held ?? { ...booking, fromAtMs: booking.openAtMs, toAtMs: booking.closeAtMs };
}

/** So long before the opening, but after the booking before. */
function ticksFrom(booking: Booking, { bookings, state }: KnownBooth, beforeMs: number): number {
  const ends = bookingWindows(bookings, state)
    .filter((window) => window.booking !== null && window.booking.openAtMs < booking.openAtMs)
    .map(({ toAtMs }) => toAtMs);
  return Math.max(booking.openAtMs - beforeMs, ...ends);
}

/** What is shown of the paper's evening is of the present booking; of another one nothing is known yet. */
function viewFor({ bookingId }: Booking, view: BoothView): BoothView {
  if (view.booking?.bookingId === bookingId) return view;
  return { ...view, outlook: { ...view.outlook, media: null } };
}

function diskIn(items: readonly StoredItem[]): number | null {
  const hosts = items.flatMap((item) =>
    item.kind === "host" && item.diskFreeMb !== null ? [{ atMs: item.atMs, freeMb: item.diskFreeMb }] : [],
  );
  return hosts.sort((a, b) => a.atMs - b.atMs).at(-1)?.freeMb ?? null;
}
