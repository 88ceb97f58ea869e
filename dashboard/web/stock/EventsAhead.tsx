import type { StockView } from "@boothward/shared-types/stock";
import { FigureTable } from "../parts/FigureTable.tsx";
import { units } from "../state/signals.ts";
import { stockAhead as words } from "../words/en/stock.ts";
import { formatIn } from "../../alerts/format.ts";
import type { PlaceNames } from "./placeWords.ts";

/** What each of the next events will use, and what is left after it. */
export function EventsAhead({ view, names }: { view: StockView; names: PlaceNames }) {
  const total = view.events.reduce((sum, { mean }) => sum + mean, 0);
  let left = view.advice?.atHand ?? null;
  const rows = view.events.map((event) => {
    if (left !== null) left -= event.mean;
    const after = left === null ? "?" : String(Math.floor(left));
    return [...nameOf(event, names), event.mean.toFixed(1), event.high.toFixed(1), after];
  });
  return (
    <section class="sheet usesahead">
      <h2>{words.title}</h2>
      {rows.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <>
          <p>{words.sentence(rows.length, total.toFixed(0))}</p>
          <FigureTable columns={words.columns} rows={rows} />
          <p class="cap">{words.hint}</p>
        </>
      )}
    </section>
  );
}

function nameOf(
  { bookingId, openAtMs }: StockView["events"][number],
  { bookings }: PlaceNames,
): readonly [string] {
  const booking = bookings.find((each) => each.bookingId === bookingId);
  if (booking === undefined) return [words.unnamed];
  return [`${booking.client}, ${formatIn(booking.zone, units.value).day(openAtMs)}`];
}
