import type { Booking, RollsToBring } from "@boothward/shared-types";
import type { PastEvening } from "../forecast/demand/demandInput.ts";
import { wasteAtChange } from "../forecast/media/rollWaste.ts";
import { eveningSheets } from "./eveningSheets.ts";

/** A roll can be spoilt; the next one is hours away. Common practice, no source. */
const reserve = 1;

/**
 * Whole rolls to bring to a booking: what ninety-nine evenings in a hundred do not exceed, each roll less what its
 * fitting wastes at most, and one more that stays at the booth.
 *
 * `past` are earlier evenings of the same kind.
 */
export function rollsToBring(
  booking: Booking,
  kitSheets: number,
  past: readonly PastEvening[],
): RollsToBring {
  const sheets = eveningSheets(booking, past);
  const mostSheets = Math.ceil(sheets.most);
  const loadedSheets = booking.sheetsLoaded;
  const wasteSheets = wasteAtChange.most;
  const usable = Math.max(1, kitSheets - wasteSheets);
  const forEvening = Math.max(0, Math.ceil((mostSheets - (loadedSheets ?? 0)) / usable));
  const bring = forEvening + reserve;
  // A plan counts its spares beside the roll that is loaded.
  const spares = loadedSheets === null ? bring - 1 : bring;
  return {
    ...{ bring, forEvening, reserve, mostSheets, kitSheets, wasteSheets, loadedSheets },
    usualSheets: Math.round(sheets.usual),
    short: Math.max(0, spares - booking.spareRolls),
    ...{ basis: sheets.basis, pastEvenings: past.length },
  };
}
