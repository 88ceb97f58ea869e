import type { BookedTime } from "../booth/bookingWindows.ts";
import { countsBetween, printsAfter, type CountedPrint } from "../booth/bins.ts";
import type { BoothState } from "../booth/boothState.ts";
import type { Stop } from "../booth/printerLedger.ts";
import { beliefOfPlan, perHourOf, withSeen, type RateBelief } from "./gammaPoisson.ts";

/** How fast sheets go now, and how much a count varies about it. */
export type DemandRate = { readonly belief: RateBelief; readonly clumping: number };

type RateState = Pick<BoothState, "bins" | "printing">;

const hourMs = 3_600_000;
const minuteMs = 60_000;

/** Sessions a guest has over an evening, until learned (our simulated evenings). */
const participation = 0.75;

/** Sheets a session, until this evening has shown its own. Our own guess: one sheet or two. */
const usualSheetsPerSession = 1.5;

/** So many sessions make the evening's own figure good enough. */
const enoughSessions = 8;

/** How far a plan may be off, as a share of itself: guests known, or only what was loaded, or nothing. */
const spreads = { guests: 0.6, loaded: 1, nothing: 1.5 };

/** Of what is loaded this much is used in an evening, roughly. */
const usedOfLoaded = 0.7;

/** Sheets an hour with nothing to go by: below a busy booth's 35 to 60 (common practice, no source). */
const blindPerHour = 30;

/** With nothing to go by it takes so much before a rate is said at all. */
const blindNeeds = { hours: 1 / 3, sheets: 10 };

/** "Lately". */
const recentMs = 45 * minuteMs;

/** The day's rate counts lately as much as so many groups of sheets seen. */
const dayShape = 4;

/** Variance over mean of counts in five minutes, on top of sheets that come in groups (fitted, own evenings). */
const usualClumping = 1.45;

/**
 * The recent rate, with the day's as its prior and the plan's as the day's. Time in which the booth could not
 * print is no evidence. Null when there is nothing to go by: then no forecast is made.
 */
export function demandRate(state: RateState, booking: BookedTime, atMs: number): DemandRate | null {
  const openAtMs = Math.max(booking.openAtMs, booking.fromAtMs);
  const recentAtMs = Math.max(openAtMs, atMs - recentMs);
  const prints = printsAfter(state.bins, openAtMs).filter((print) => print.atMs <= atMs);
  const clumping = usualClumping * groupSize(prints);
  const earlier = seenIn(prints, state.printing.stops, openAtMs, recentAtMs);
  const recent = seenIn(prints, state.printing.stops, recentAtMs, atMs);
  const prior = planned(state, booking, atMs) ?? blind(earlier, recent);
  if (prior === null) return null;
  const day = withSeen(prior, earlier.sheets / clumping, earlier.hours / clumping);
  const shape = Math.min(day.shape, dayShape);
  const belief = withSeen(
    { shape, hours: shape / perHourOf(day) },
    recent.sheets / clumping,
    recent.hours / clumping,
  );
  return { belief, clumping };
}

type Seen = { readonly sheets: number; readonly hours: number };

function planned(state: RateState, booking: BookedTime, atMs: number): RateBelief | null {
  const openHours = (booking.closeAtMs - booking.openAtMs) / hourMs;
  if (booking.guests !== null && booking.guests > 0) {
    const sheets = booking.guests * participation * sheetsPerSession(state, booking, atMs);
    return beliefOfPlan(sheets / openHours, spreads.guests);
  }
  if (booking.sheetsLoaded === null || booking.sheetsLoaded <= 0 || atMs < booking.openAtMs) return null;
  return beliefOfPlan((booking.sheetsLoaded * usedOfLoaded) / openHours, spreads.loaded);
}

function blind(earlier: Seen, recent: Seen): RateBelief | null {
  const isEnough =
    earlier.hours + recent.hours >= blindNeeds.hours || earlier.sheets + recent.sheets >= blindNeeds.sheets;
  return isEnough ? beliefOfPlan(blindPerHour, spreads.nothing) : null;
}

function sheetsPerSession(state: RateState, booking: BookedTime, atMs: number): number {
  const { sessions, pitches } = countsBetween(state.bins, booking.openAtMs, atMs);
  return sessions >= enoughSessions && pitches > 0 ? pitches / sessions : usualSheetsPerSession;
}

/** Mean size of the group a sheet comes in: what makes counts vary more than single sheets would. */
function groupSize(prints: readonly CountedPrint[]): number {
  const sheets = prints.reduce((sum, print) => sum + print.pitches, 0);
  const squares = prints.reduce((sum, print) => sum + print.pitches ** 2, 0);
  return sheets > 0 ? Math.max(1, squares / sheets) : usualSheetsPerSession;
}

function seenIn(
  prints: readonly CountedPrint[],
  stops: readonly Stop[],
  fromAtMs: number,
  toAtMs: number,
): Seen {
  const within = prints.filter((print) => print.atMs > fromAtMs && print.atMs <= toAtMs);
  const openMs = Math.max(0, toAtMs - fromAtMs - stoppedMs(stops, fromAtMs, toAtMs));
  return { sheets: within.reduce((sum, print) => sum + print.pitches, 0), hours: openMs / hourMs };
}

/** How long some printer could not print; stretches that overlap count once. */
function stoppedMs(stops: readonly Stop[], fromAtMs: number, toAtMs: number): number {
  const sorted = [...stops].sort((a, b) => a.fromAtMs - b.fromAtMs);
  let reachedAtMs = fromAtMs;
  let sum = 0;
  for (const stop of sorted) {
    const begin = Math.max(stop.fromAtMs, reachedAtMs);
    const end = Math.min(stop.toAtMs ?? toAtMs, toAtMs);
    if (end > begin) sum += end - begin;
    reachedAtMs = Math.max(reachedAtMs, end);
  }
  return sum;
}
