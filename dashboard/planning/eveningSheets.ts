import type { Booking } from "@boothward/shared-types";
import type { DemandAhead } from "../forecast/demand/demandAhead.ts";
import type { PastEvening } from "../forecast/demand/demandInput.ts";
import { forecastDemand } from "../forecast/demand/forecastDemand.ts";
import { plannedDemand } from "../forecast/demandInputOf.ts";

/** Sheets that guests of a planned evening are expected to take. */
export type EveningSheets = {
  readonly mean: number;
  readonly sd: number;
  /** What half of such evenings do not exceed. */
  readonly usual: number;
  /** What ninety-nine such evenings in a hundred do not exceed. */
  readonly most: number;
  readonly basis: DemandAhead["basis"];
};

/** So many evenings in a hundred have enough. */
const enoughShare = 0.99;

/** Quantiles by which the spread is read: one standard deviation on each side of a normal curve. */
const oneSd = { low: 0.1587, high: 0.8413 };

const hourMs = 3_600_000;

/**
 * What a booking's evening will use, as it stands before its doors: from its guests, hours, breaks, kind and prints a
 * session, and from `past`, earlier evenings of the kind. The same answer whenever it is asked.
 */
export function eveningSheets(booking: Booking, past: readonly PastEvening[]): EveningSheets {
  const beforeAtMs = booking.openAtMs - hourMs;
  const { ahead } = forecastDemand(null, plannedDemand(booking, past), beforeAtMs, booking.closeAtMs);
  const last = ahead.stepsAtMs.length - 1;
  const quantile = (share: number) => ahead.quantile(last, share);
  return {
    mean: ahead.mean(last),
    sd: (quantile(oneSd.high) - quantile(oneSd.low)) / 2,
    usual: quantile(0.5),
    most: quantile(enoughShare),
    basis: ahead.basis,
  };
}
