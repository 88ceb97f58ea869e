import type { Severity } from "@boothward/shared-types";

/** A notice for one person: when it came, how pressing it is, and of which booth. */
export type Arriving = {
  readonly atMs: number;
  readonly severity: Severity;
  readonly boothId: string | null;
};

// Source: ISA-18.2 and EEMUA 191, by secondary pages: more than 10 alarms to one person in ten minutes begin a
// flood, fewer than 5 in ten minutes end it.
const floodWindowMs = 10 * 60_000;
const beginsAbove = 10;
const endsBelow = 5;

/**
 * Since when a person is flooded at this instant, from what arrived for them until then in the order of time;
 * null: not flooded. While it lasts notices are gathered instead of sent one by one.
 */
export function floodFromAtMs(arrivals: readonly Pick<Arriving, "atMs">[], atMs: number): number | null {
  let fromAtMs: number | null = null;
  for (const [at, arrival] of arrivals.entries()) {
    if (hasEnded(arrivals, at - 1, arrival.atMs)) fromAtMs = null;
    const eleventhLast = arrivals[at - beginsAbove];
    if (eleventhLast !== undefined && eleventhLast.atMs > arrival.atMs - floodWindowMs)
      fromAtMs ??= arrival.atMs;
  }
  return hasEnded(arrivals, arrivals.length - 1, atMs) ? null : fromAtMs;
}

/** Whether at this instant, with nothing after the arrival at `last`, fewer than five lie in the window. */
function hasEnded(arrivals: readonly Pick<Arriving, "atMs">[], last: number, atMs: number): boolean {
  const fifthLast = arrivals[last - (endsBelow - 1)];
  return fifthLast === undefined || fifthLast.atMs <= atMs - floodWindowMs;
}

/** Whether a notice is sent by itself even in a flood: the first "now" of its booth since the flood began. */
export function isFirstNow(
  notice: Omit<Arriving, "atMs">,
  before: readonly Arriving[],
  floodedFromAtMs: number,
): boolean {
  if (notice.severity !== "actNow") return false;
  return !before.some(
    ({ atMs, severity, boothId }) =>
      atMs >= floodedFromAtMs && severity === "actNow" && boothId === notice.boothId,
  );
}
