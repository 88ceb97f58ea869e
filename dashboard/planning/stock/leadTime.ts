import jStat from "jstat";

const dayMs = 86_400_000;

/** How long an order takes to come: gamma distributed, in days. */
export type LeadTime = {
  readonly meanDays: number;
  readonly sdDays: number;
  /** Orders that it was learned from. */
  readonly orders: number;
};

/** Before any order is known: two weeks, give or take one and a half. Common practice, no source. */
const usual = { meanDays: 14, sdDays: 10.5 };

/** The usual lead time weighs as much as so many orders seen. Our own choice. */
const usualWeight = 2;

/** A supplier that always takes a week may still be a day late. */
const leastSdDays = 1;

/** The lead time that orders showed, drawn to the usual one while they are few. */
export function leadTimeOf(
  orders: readonly { readonly orderedAtMs: number; readonly arrivedAtMs: number | null }[],
): LeadTime {
  const days = orders.flatMap(({ orderedAtMs, arrivedAtMs }) =>
    arrivedAtMs === null || arrivedAtMs < orderedAtMs ? [] : [(arrivedAtMs - orderedAtMs) / dayMs],
  );
  const weight = usualWeight + days.length;
  const meanDays = (usualWeight * usual.meanDays + sum(days)) / weight;
  const spread = usual.sdDays ** 2 + (usual.meanDays - meanDays) ** 2;
  const variance = (usualWeight * spread + sum(days.map((each) => (each - meanDays) ** 2))) / weight;
  return { meanDays, sdDays: Math.max(leastSdDays, Math.sqrt(variance)), orders: days.length };
}

/** So many lead times stand for all of them: with four times as many no check value moves in its fourth digit. */
const standIns = 500;

/** Lead times in days that are equally likely, shortest first: the middles of equal shares of the gamma curve. */
export function likelyLeads({ meanDays, sdDays }: Pick<LeadTime, "meanDays" | "sdDays">): Float64Array {
  const shape = (meanDays / sdDays) ** 2;
  const scale = sdDays ** 2 / meanDays;
  return Float64Array.from({ length: standIns }, (_, place) =>
    jStat.gamma.inv((place + 0.5) / standIns, shape, scale),
  );
}

function sum(all: readonly number[]): number {
  return all.reduce((total, each) => total + each, 0);
}
