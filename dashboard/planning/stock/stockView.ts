import type { MoveLine, SeasonEnd, StockMove, StockView } from "@boothward/shared-types/stock";
import { adviseOrder } from "./adviseOrder.ts";
import { compareMoves, effectiveMoves, takenBackMoves } from "./effectiveMoves.ts";
import { leadTimeOf, likelyLeads } from "./leadTime.ts";
import { newsvendor } from "./newsvendor.ts";
import { ordersOf, type WrittenOrder } from "./ordersOf.ts";
import { isAtHand, places } from "./places.ts";
import { rollsInTime } from "./shortBefore.ts";
import { stockAt, stockOf, type StockNow } from "./stockOf.ts";
import { useAhead, type PlannedUse } from "./useAhead.ts";
import { weeklyUse } from "./weeklyUse.ts";

/** All that is known of the stock. */
export type StockKnown = {
  /** Moves that people wrote. */
  readonly written: readonly StockMove[];
  /** Moves worked out from what was said at the booths. */
  readonly derived: readonly StockMove[];
  readonly orders: readonly WrittenOrder[];
  /** Coming events, the next first. */
  readonly planned: readonly (PlannedUse & { readonly bookingId: string })[];
  readonly nowMs: number;
};

/** So many moves are on a page. */
const pageMoves = 200;
/** So many events are told of singly. */
const mostEvents = 12;
/** Nineteen in twenty, and how many standard deviations that is. */
const surely = 0.95;
const zHigh = 1.645;

/** What the Stock page shows: where the rolls are, what eats them, when to order. */
export function stockView(
  known: StockKnown,
  asked: { readonly serviceLevel: number; readonly olderBefore: string | null },
): StockView {
  const moves = [...known.written, ...known.derived];
  const stock = stockOf(moves);
  const orders = ordersOf(known.orders, moves);
  const lines = moveLines(known, stock);
  const from = asked.olderBefore === null ? 0 : placeAfter(lines, asked.olderBefore);
  const page = lines.slice(from, from + pageMoves);
  const { bought, used, lost, unexplained } = stock;
  const atHand = rollsAtHand(stock, known.written);
  return {
    places: [...stock.places],
    totals: { bought, used, lost, unexplained },
    orders,
    moves: page,
    olderBefore: from + pageMoves < lines.length ? (page.at(-1)?.moveId ?? null) : null,
    events: known.planned.slice(0, mostEvents).map(({ bookingId, openAtMs, mean, sd }) => ({
      ...{ bookingId, openAtMs, mean, high: mean + zHigh * sd },
    })),
    advice:
      atHand === null
        ? null
        : adviseOrder({
            ...{ atHand, onOrder: stockAt(stock, places.order).fullRolls, orders },
            ...{ planned: known.planned, weekly: weeklyUse(moves, known.nowMs) },
            ...{ lead: leadTimeOf(orders), serviceLevel: asked.serviceLevel, nowMs: known.nowMs },
          }),
  };
}

/**
 * What to have for the rest of a season that ends at an instant, given what a missing and a left roll cost; null: it is
 * not known how many rolls there are.
 */
export function seasonEndOf(
  known: StockKnown,
  asked: { readonly endAtMs: number; readonly shortCost: number; readonly leftCost: number },
): SeasonEnd | null {
  const moves = [...known.written, ...known.derived];
  const stock = stockOf(moves);
  const atHand = rollsAtHand(stock, known.written);
  if (atHand === null) return null;
  const days = (asked.endAtMs - known.nowMs) / 86_400_000;
  const weeks = Math.ceil(days / 7);
  const use = useAhead(known.planned, weeklyUse(moves, known.nowMs), known.nowMs, weeks)(days);
  const sd = Math.sqrt(use.variance);
  const { rolls, enoughShare } = newsvendor({ mean: use.mean, sd }, asked);
  const orders = ordersOf(known.orders, moves);
  const ordered = {
    orders,
    leads: likelyLeads(leadTimeOf(orders)),
    serviceLevel: surely,
    nowMs: known.nowMs,
  };
  const have = atHand + rollsInTime(ordered, asked.endAtMs);
  return {
    ...{ rolls: Math.max(0, Math.ceil(rolls - have)), enoughShare },
    ...{ meanUse: use.mean, highUse: use.mean + zHigh * sd },
  };
}

/**
 * Full rolls that can be printed on. Null while it is not known: before anybody counted or bought any, and when more
 * were used than ever came. A place that owes rolls had them from another, so the sum is right all the same.
 */
function rollsAtHand({ balances }: StockNow, written: readonly StockMove[]): number | null {
  const hasStart = effectiveMoves(written).some(
    ({ counted, fromPlace, toPlace }) => counted !== null || (!isAtHand(fromPlace) && isAtHand(toPlace)),
  );
  const sum = balances
    .filter(({ place }) => isAtHand(place))
    .reduce((rolls, { fullRolls }) => rolls + fullRolls, 0);
  return hasStart && sum >= 0 ? sum : null;
}

/** Every line of the ledger, the latest first. */
export function moveLines({ written, derived }: StockKnown, stock: StockNow): MoveLine[] {
  const taken = takenBackMoves(written);
  const isDerived = new Set(derived.map(({ moveId }) => moveId));
  return [...written, ...derived]
    .sort((a, b) => compareMoves(b, a))
    .map((move) => ({
      ...move,
      isTakenBack: taken.has(move.moveId),
      isDerived: isDerived.has(move.moveId),
      found: stock.found.get(move.moveId) ?? null,
    }));
}

function placeAfter(lines: readonly MoveLine[], moveId: string): number {
  return lines.findIndex((line) => line.moveId === moveId) + 1;
}
