import type { MediaOrder } from "@boothward/shared-types/stock";
import { chanceOfEnough } from "./enoughUntil.ts";
import type { PlannedUse, UseAhead } from "./useAhead.ts";

const dayMs = 86_400_000;

/** Rolls that are still to come, and when they surely have; null: nobody can say, as that day has passed. */
type Arrival = { readonly rolls: number; readonly byAtMs: number | null };

type Ordered = {
  readonly orders: readonly MediaOrder[];
  /** Lead times that are equally likely, shortest first, in days. */
  readonly leads: Float64Array;
  readonly serviceLevel: number;
  readonly nowMs: number;
};

/**
 * The opening of the first event that may run short because what is on order comes too late: with all of it there
 * would be enough, with what comes before the opening there is less than the chance `serviceLevel`. Null: none.
 *
 * An order comes on the day that it is expected on; without one, after the lead time that so many orders keep; once
 * that day has passed it is counted on no more, until it is there.
 */
export function shortBefore(
  of: Ordered & { readonly atHand: number; readonly planned: readonly PlannedUse[]; readonly use: UseAhead },
): number | null {
  const { atHand, planned, use, serviceLevel, nowMs } = of;
  const arrivals = arrivalsOf(of);
  const short = planned.find(({ openAtMs }) => {
    const used = use((openAtMs - nowMs) / dayMs);
    const isEnough = (arrived: number) => chanceOfEnough(used, atHand + arrived) >= serviceLevel;
    return openAtMs >= nowMs && !isEnough(inTime(arrivals, openAtMs)) && isEnough(rollsOf(arrivals));
  });
  return short?.openAtMs ?? null;
}

/** Rolls on order that surely have come by an instant. */
export function rollsInTime(ordered: Ordered, byAtMs: number): number {
  return inTime(arrivalsOf(ordered), byAtMs);
}

function inTime(arrivals: readonly Arrival[], atMs: number): number {
  return rollsOf(arrivals.filter(({ byAtMs }) => byAtMs !== null && byAtMs <= atMs));
}

function arrivalsOf({ orders, leads, serviceLevel, nowMs }: Ordered): Arrival[] {
  const surelyDays = leads[Math.min(leads.length - 1, Math.floor(serviceLevel * leads.length))] ?? 0;
  return orders
    .filter(({ arrivedAtMs }) => arrivedAtMs === null)
    .map(({ rolls, arrivedRolls, expectedAtMs, orderedAtMs }) => {
      const byAtMs = expectedAtMs ?? orderedAtMs + surelyDays * dayMs;
      return { rolls: rolls - arrivedRolls, byAtMs: byAtMs < nowMs ? null : byAtMs };
    });
}

function rollsOf(arrivals: readonly Arrival[]): number {
  return arrivals.reduce((sum, { rolls }) => sum + rolls, 0);
}
