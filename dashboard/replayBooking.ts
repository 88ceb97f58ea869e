import type { Booking, ReplayAsk, ReplayView, StoredItem } from "@boothward/shared-types";
import { isInvented } from "./advanceBooth.ts";
import type { BookedTime } from "./booth/bookingWindows.ts";
import type { BoothSettings } from "./booth/boothSettings.ts";
import { emptyBooth, reduceBooth, type BoothState } from "./booth/boothState.ts";
import { compareItems } from "./booth/compareItems.ts";
import { fittedAt } from "./booth/fittedAt.ts";
import { mediaNow } from "./booth/mediaNow.ts";
import { isTakenBack, takenBackNames, takingsIn } from "./booth/takenBack.ts";
import { stateOfItems } from "./booth/timeline.ts";
import type { PastEvening, SeenSession } from "./forecast/demand/demandInput.ts";
import type { DemandRun } from "./forecast/demand/demandRun.ts";
import { emptyAtMs } from "./forecast/demand/emptyAt.ts";
import { forecastDemand } from "./forecast/demand/forecastDemand.ts";
import { demandInputOf } from "./forecast/demandInputOf.ts";
import type { KnownEvenings } from "./knownEvenings.ts";
import { besides, heldBooking, sessionsIn, stretchOf } from "./pastEvenings.ts";
import { replaySummaryOf, type RollEnd } from "./replaySummary.ts";
import type { Store } from "./store/openStore.ts";

const dayMs = 24 * 3_600_000;
const askEveryMs = 15 * 60_000;
const pointEveryMs = 5 * 60_000;

/** The roll on the printer may have been fitted at the event before: a week of facts tells. */
const factsBeforeMs = 8 * dayMs;

/** Why there is no replay. */
export type NoReplay = "noSuchBooking" | "notOver";

/**
 * How the forecast would have done at a booking that is over: asked each quarter of an hour of its open hours,
 * each time with what had happened by then, and with the earlier evenings that were over before it opened. The
 * close is taken as it was extended in the end, and what people took back as never said.
 */
export async function replayBooking(
  { store, evenings }: { readonly store: Store; readonly evenings: Pick<KnownEvenings, "before"> },
  bookingId: string,
  nowMs: number,
): Promise<ReplayView | NoReplay> {
  const booking = await store.bookings.byId(bookingId);
  const settings = booking === null ? null : await store.booths.byId(booking.boothId);
  if (booking === null || settings === null) return "noSuchBooking";
  if (nowMs < booking.closeAtMs) return "notOver";
  const facts = await factsOf(store, booking);
  const after = stateOfItems(booking.boothId, facts);
  const held = heldBooking(after, besides(booking, await store.bookings.all()), bookingId);
  if (held === null || nowMs < held.closeAtMs) return "notOver";
  const past = await evenings.before(booking.eventKind, isInvented(after), held.openAtMs);
  return viewOf({ facts, after, held, settings, past });
}

async function factsOf(store: Store, booking: Booking): Promise<StoredItem[]> {
  const { toAtMs } = stretchOf(booking);
  const fromAtMs = booking.openAtMs - factsBeforeMs;
  const facts = await store.boothItems.factsBetween(booking.boothId, { fromAtMs, toAtMs });
  const takenBack = takenBackNames(takingsIn(facts));
  return facts.filter((fact) => !isTakenBack(fact, takenBack)).sort(compareItems);
}

type Played = {
  readonly facts: readonly StoredItem[];
  readonly after: BoothState;
  readonly held: BookedTime;
  readonly settings: BoothSettings;
  readonly past: readonly PastEvening[];
};

function viewOf(played: Played): ReplayView {
  const { after, held, settings, past } = played;
  const { bookingId, boothId, client, place, eventKind, zone, openAtMs, closeAtMs, guests } = held;
  const sessions = sessionsIn(after, held);
  const { asks, rollEnd } = play(played, sessions);
  return {
    ...{ bookingId, boothId, boothName: settings.name, client, place, eventKind, zone },
    ...{ openAtMs, closeAtMs, guests, pastEvenings: past.length },
    ...{ sessions: sessions.length, sheetsUsed: sheetsAfter(sessions, -Infinity), asks },
    used: instants(openAtMs, closeAtMs, pointEveryMs)
      .concat(closeAtMs)
      .map((atMs) => ({
        atMs,
        sheetsUsed: sheetsAfter(sessions, -Infinity) - sheetsAfter(sessions, atMs),
      })),
    rollChangesAtMs: fittedAt(after).filter((atMs) => atMs >= openAtMs && atMs <= closeAtMs),
    summary: replaySummaryOf(asks, rollEnd),
  };
}

/** Goes through the evening fact by fact, and asks whenever a quarter of an hour is over. */
function play(played: Played, sessions: readonly SeenSession[]) {
  const { facts, held, settings } = played;
  const { openAtMs, closeAtMs, boothId } = held;
  const asks: ReplayAsk[] = [];
  let state = emptyBooth(boothId);
  let run: DemandRun | null = null;
  let rollEnd: RollEnd | null = null;
  let next = 0;
  for (const atMs of instants(openAtMs, closeAtMs, askEveryMs).concat(closeAtMs)) {
    for (; next < facts.length && (facts[next]?.atMs ?? Infinity) <= atMs; next += 1) {
      const fact = facts[next];
      if (fact === undefined) break;
      const before = state;
      state = reduceBooth(state, fact);
      if (fact.atMs >= openAtMs) rollEnd ??= endedBy(before, state, fact.atMs);
    }
    if (atMs === closeAtMs) break;
    const asked = ask(state, played, sessions, atMs, run);
    run = asked.run;
    asks.push(asked.ask);
  }
  return { asks, rollEnd };

  /** Whether the first roll came to its end with this fact: it is empty, or changed though it would not have lasted. */
  function endedBy(before: BoothState, now: BoothState, atMs: number): RollEnd | null {
    const left = mediaNow(now, settings, held)?.sheetsLeft ?? null;
    const leftBefore = mediaNow(before, settings, held)?.sheetsLeft ?? null;
    if (left === 0) return { atMs, how: "empty" };
    const isChanged = fittedAt(now).at(-1) !== fittedAt(before).at(-1);
    if (!isChanged || leftBefore === null || leftBefore >= sheetsAfter(sessions, atMs)) return null;
    return { atMs, how: "changed" };
  }
}

function ask(
  state: BoothState,
  { held, settings, past }: Played,
  sessions: readonly SeenSession[],
  atMs: number,
  before: DemandRun | null,
): { ask: ReplayAsk; run: DemandRun } {
  const { run, ahead } = forecastDemand(before, demandInputOf(state, held, past), atMs, held.closeAtMs);
  const last = ahead.stepsAtMs.length - 1;
  const demanded = (share: number) => Math.round(ahead.quantile(last, share));
  const left = mediaNow(state, settings, held)?.sheetsLeft ?? null;
  const empty = (share: number) => (left === null ? null : emptyAtMs(ahead, left, share));
  return {
    run,
    ask: {
      ...{ atMs, sheetsLeft: left, usedToEnd: sheetsAfter(sessions, atMs) },
      demandToEnd: { p10: demanded(0.1), p50: demanded(0.5), p90: demanded(0.9) },
      emptyAtMs: { p10: empty(0.1), p50: empty(0.5), p90: empty(0.9) },
      lastsChance: left === null ? null : ahead.atMost(last, left),
    },
  };
}

function sheetsAfter(sessions: readonly SeenSession[], atMs: number): number {
  return sessions.reduce((sum, session) => (session.atMs > atMs ? sum + session.sheets : sum), 0);
}

/** From one instant on and before another, evenly. */
function instants(fromAtMs: number, toAtMs: number, everyMs: number): number[] {
  const count = Math.max(0, Math.ceil((toAtMs - fromAtMs) / everyMs));
  return Array.from({ length: count }, (_, at) => fromAtMs + at * everyMs);
}
