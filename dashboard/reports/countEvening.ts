import type { ReportFigures, ReportQuarter } from "@boothward/shared-types";
import { attribute, type AttributedSession, type Attribution } from "../booth/attribution.ts";
import { sameDeedMs } from "../booth/authorities.ts";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothState } from "../booth/boothState.ts";
import { binsInPieces } from "./inPieces.ts";
import { quarterStarts } from "./quarterStarts.ts";

/** What was counted of an evening. */
export type EveningCounts = {
  readonly figures: ReportFigures;
  readonly quarters: readonly ReportQuarter[];
  readonly busiest: { readonly atMs: number; readonly sessions: number } | null;
  /** In no figure of the client's. */
  readonly outside: { readonly sessions: number; readonly sheets: number };
  /** Sessions of the guests, oldest first. */
  readonly sessions: readonly AttributedSession[];
  readonly sessionsBy: Attribution["by"];
};

type Amount = { readonly atMs: number; readonly amount: number };

/**
 * Counts an evening: guests are those of the open hours, and of three minutes after them for who was still in the
 * booth. A session's sheets are in its own quarter-hour, a reprint in that of its print.
 */
export function countEvening(state: BoothState, held: BookedTime, throughAtMs: number): EveningCounts {
  const whole = attribute(state, stretchOf(held));
  const guests = guestsOf(whole, held);
  const bins = binsInPieces(state);
  const pieces = bins === null ? null : guestsOf(attribute({ ...state, bins }, stretchOf(held)), held);
  const isPaperSeen = seesPaper(state);
  const sheets = isPaperSeen ? guests.paper : null;
  const prints = isPaperSeen && pieces !== null ? pieces.paper : null;
  const quarters = quartersOf(guests.sessions, sheets, prints, held);
  const most = Math.max(0, ...quarters.map((quarter) => quarter.sessions));
  const busiest = quarters.find((quarter) => quarter.sessions === most && most > 0);
  const isSettled = ({ atMs }: AttributedSession) => throughAtMs - atMs > sameDeedMs;
  const digital = guests.sessions.filter((each) => each.pitches === 0 && isSettled(each));
  return {
    figures: {
      sessions: whole.by === null && !isPaperSeen ? null : guests.sessions.length,
      prints: prints === null ? null : Math.round(sumOf(prints)),
      sheets: sheets === null ? null : sumOf(sheets),
      reprints: isPaperSeen ? sumOf(guests.reprints) : null,
      digitalOnly: isPaperSeen ? digital.length : null,
    },
    quarters,
    busiest: busiest === undefined ? null : { atMs: busiest.atMs, sessions: busiest.sessions },
    outside: outsideOf(whole, held),
    ...{ sessions: guests.sessions, sessionsBy: whole.by },
  };
}

/** Whether an instant is the guests'. */
export function isGuests(atMs: number, held: Pick<BookedTime, "openAtMs" | "closeAtMs">): boolean {
  return atMs >= held.openAtMs && atMs < held.closeAtMs + sameDeedMs;
}

function stretchOf({ fromAtMs, toAtMs, openAtMs, closeAtMs }: BookedTime) {
  return { fromAtMs, toAtMs, booking: { openAtMs, closeAtMs } };
}

/** Whether anything at the booth could see paper being used. */
function seesPaper({ printing, counts, bins }: BoothState): boolean {
  const isUsed = bins.some((bin) => bin.uses.some(({ basis }) => basis !== "waste"));
  return isUsed || printing.printers.length > 0 || counts.counters.length > 0;
}

function guestsOf({ sessions, reprints }: Attribution, held: BookedTime) {
  const own = sessions.filter(({ atMs }) => isGuests(atMs, held));
  const again = reprints.map(({ atMs, counted }) => ({ atMs, amount: counted }));
  const paper: Amount[] = [...own.map(({ atMs, pitches }) => ({ atMs, amount: pitches })), ...again];
  return { sessions: own, reprints: again, paper };
}

function outsideOf({ sessions, tests }: Attribution, held: BookedTime) {
  const others = sessions.filter(({ atMs }) => !isGuests(atMs, held));
  const sheets = others.reduce((sum, { pitches }) => sum + pitches, 0);
  return {
    sessions: others.length,
    sheets: tests.reduce((sum, { counted }) => sum + counted, sheets),
  };
}

function quartersOf(
  sessions: readonly AttributedSession[],
  sheets: readonly Amount[] | null,
  prints: readonly Amount[] | null,
  { openAtMs, closeAtMs, zone }: BookedTime,
): ReportQuarter[] {
  const last = Math.max(...[...sessions, ...(sheets ?? []), ...(prints ?? [])].map(({ atMs }) => atMs + 1));
  const starts = quarterStarts(openAtMs, Math.max(closeAtMs, last), zone);
  return starts.map((atMs, at) => {
    const toAtMs = starts[at + 1] ?? Infinity;
    const isIn = (each: { readonly atMs: number }) => each.atMs >= atMs && each.atMs < toAtMs;
    const within = (amounts: readonly Amount[] | null) =>
      amounts === null ? null : sumOf(amounts.filter(isIn));
    const pieces = within(prints);
    return {
      ...{ atMs, sessions: sessions.filter(isIn).length, sheets: within(sheets) },
      prints: pieces === null ? null : Math.round(pieces),
    };
  });
}

function sumOf(amounts: readonly Amount[]): number {
  return amounts.reduce((sum, { amount }) => sum + amount, 0);
}
