import type { PlaceStock, StockView } from "@boothward/shared-types/stock";
import { slowMs } from "../state/signals.ts";
import { rollCount, stockPlaces as words } from "../words/en/stock.ts";
import { placeWords, type PlaceNames } from "./placeWords.ts";
import { BringBack } from "./BringBack.tsx";
import { Owed } from "./Owed.tsx";
import { RollRow } from "./RollRow.tsx";

type PlacesProps = { names: PlaceNames; changed: () => void };

/** Where the rolls are, place by place; a place that gave more than it had says so, an event that is over as well. */
export function PlaceCards({ view, ...its }: PlacesProps & { view: StockView }) {
  const { names } = its;
  const kit = names.booths[0]?.kitSheets ?? 400;
  const { bought, used, lost, unexplained } = view.totals;
  return (
    <section class="sheet">
      <h2>{words.title}</h2>
      <ul class="places">
        {view.places.map((place) => (
          <Place key={place.place} place={place} kit={kit} {...its} />
        ))}
      </ul>
      {view.moves.length > 0 && (
        <p class="cap">
          {words.totals(bought, used, lost)}
          {unexplained > 0 && ` ${words.unexplainedShort(unexplained)}`}
          {unexplained < 0 && ` ${words.unexplainedOver(-unexplained)}`}
        </p>
      )}
    </section>
  );
}

function Place({ place, kit, names, changed }: PlacesProps & { place: PlaceStock; kit: number }) {
  const { fullRolls, partials, missing } = place;
  const event = eventAt(place.place, names);
  const isLeftThere = event !== null && slowMs.value > event.overAtMs && fullRolls + partials.length > 0;
  return (
    <li>
      <h3>{placeWords(place.place, names)}</h3>
      <p class="amount">
        <b>{fullRolls > 0 ? rollCount(fullRolls) : words.none}</b>
        {partials.length > 0 && ` ${words.parts(partials)}`}
      </p>
      <RollRow full={fullRolls} partials={partials} kit={kit} />
      {fullRolls < 0 && <Owed sentence={words.owes(-fullRolls)} />}
      {missing.length > 0 && <Owed sentence={words.missing(missing)} />}
      {isLeftThere && <BringBack place={place} boothCase={event.boothCase} names={names} changed={changed} />}
    </li>
  );
}

/** When the event of a place is over, and the case of its booth; null: the place is no event. */
function eventAt(place: string, { bookings }: PlaceNames) {
  if (!place.startsWith("event:")) return null;
  const booking = bookings.find(({ bookingId }) => place === `event:${bookingId}`);
  if (booking === undefined) return { overAtMs: 0, boothCase: null };
  return { overAtMs: booking.closeAtMs, boothCase: `case:${booking.boothId}` };
}
