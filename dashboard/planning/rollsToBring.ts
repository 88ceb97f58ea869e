import type { Booking, RollsToBring } from "@boothward/shared-types";
import { plannedDemand } from "../forecast/demandInputOf.ts";
import type { PastEvening } from "../forecast/demand/demandInput.ts";
import { forecastDemand } from "../forecast/demand/forecastDemand.ts";
import { wasteAtChange } from "../forecast/media/rollWaste.ts";

/** So many evenings in a hundred have enough. */
const enoughShare = 0.99;

/** A roll can be spoilt; the next one is hours away. Common practice, no source. */
const reserve = 1;

const hourMs = 3_600_000;

/**
 * Whole rolls to bring to a booking: what ninety-nine evenings in a hundred do not exceed, each roll less what its
 * fitting wastes at most, and one more that stays at the booth. The same answer whenever it is asked.
 *
 * `past` are earlier evenings of the same kind.
 */
export function rollsToBring(
  booking: Booking,
  kitSheets: number,
  past: readonly PastEvening[],
): RollsToBring {
  const beforeAtMs = booking.openAtMs - hourMs;
  const { ahead } = forecastDemand(null, plannedDemand(booking, past), beforeAtMs, booking.closeAtMs);
  const last = ahead.stepsAtMs.length - 1;
  const mostSheets = Math.ceil(ahead.quantile(last, enoughShare));
  const loadedSheets = booking.sheetsLoaded;
  const wasteSheets = wasteAtChange.most;
  const usable = Math.max(1, kitSheets - wasteSheets);
  const forEvening = Math.max(0, Math.ceil((mostSheets - (loadedSheets ?? 0)) / usable));
  const bring = forEvening + reserve;
  // A plan counts its spares beside the roll that is loaded.
  const spares = loadedSheets === null ? bring - 1 : bring;
  return {
    ...{ bring, forEvening, reserve, mostSheets, kitSheets, wasteSheets, loadedSheets },
    usualSheets: Math.round(ahead.quantile(last, 0.5)),
    short: Math.max(0, spares - booking.spareRolls),
    ...{ basis: ahead.basis, pastEvenings: past.length },
  };
}
