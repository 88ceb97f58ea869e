import type { MediaOrder, StockAdvice } from "@boothward/shared-types/stock";
import { enoughChance, rollsEnough } from "./enoughUntil.ts";
import { likelyLeads, type LeadTime } from "./leadTime.ts";
import { shortBefore } from "./shortBefore.ts";
import { useAhead, type PlannedUse } from "./useAhead.ts";
import type { WeeklyUse } from "./weeklyUse.ts";

export type OrderQuestion = {
  readonly atHand: number;
  readonly onOrder: number;
  readonly orders: readonly MediaOrder[];
  readonly planned: readonly PlannedUse[];
  readonly weekly: WeeklyUse | null;
  readonly lead: LeadTime;
  /** 0.95 or 0.99, say: the chance of having enough until the order comes. */
  readonly serviceLevel: number;
  readonly nowMs: number;
};

const dayMs = 86_400_000;

/** Half a year ahead is looked for the day of an order, and as far again as its lead time may take. */
const horizonDays = 182;
const horizonWeeks = 60;

/** An order is to last for four weeks more after it came. Our own choice. */
const coverDays = 28;

/**
 * By when to order and how much: the last day on which an order still comes before the rolls are used up, with
 * the chance of the service level. Rolls on order count as if they were there; where they may come too late for an
 * event, that is said beside it (`shortBefore`). A higher service level never
 * gives a later day.
 */
export function adviseOrder(question: OrderQuestion): StockAdvice {
  const { atHand, onOrder, serviceLevel, nowMs, lead, weekly } = question;
  const use = useAhead(question.planned, weekly, nowMs, horizonWeeks);
  const leads = likelyLeads(lead);
  const have = Math.max(0, atHand + onOrder);
  const isEnough = (days: number) => enoughChance(use, leads, days, have) >= serviceLevel;
  const days = lastDay(isEnough);
  const isLate = days !== null && days < 0;
  const orderDays = Math.max(0, days ?? 0);
  const wanted = days === null ? have : rollsEnough(use, leads, orderDays + coverDays, serviceLevel);
  return {
    ...{ serviceLevel, atHand, onOrder, isLate, weekly, lead },
    orderByAtMs: days === null ? null : nowMs + orderDays * dayMs,
    rolls: days === null ? 0 : Math.max(1, Math.ceil(wanted - (atHand + onOrder))),
    neededNow: Math.ceil(rollsEnough(use, leads, 0, serviceLevel)),
    untilAtMs: nowMs + horizonDays * dayMs,
    shortAtMs: shortBefore({ ...question, atHand: Math.max(0, atHand), use, leads }),
  };
}

/** The last whole day for which it holds: -1 when not even today, null when all the way to the horizon. */
function lastDay(isEnough: (days: number) => boolean): number | null {
  if (!isEnough(0)) return -1;
  if (isEnough(horizonDays)) return null;
  let [good, bad] = [0, horizonDays];
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2);
    if (isEnough(middle)) good = middle;
    else bad = middle;
  }
  return good;
}
