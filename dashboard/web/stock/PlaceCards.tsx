import type { PlaceStock, StockView } from "@boothward/shared-types/stock";
import { Icon } from "../parts/Icon.tsx";
import { rollCount, stockPlaces as words } from "../words/en/stock.ts";
import { placeWords, type PlaceNames } from "./placeWords.ts";
import { RollRow } from "./RollRow.tsx";

/** Where the rolls are, place by place; a place that gave more than it had says so. */
export function PlaceCards({ view, names }: { view: StockView; names: PlaceNames }) {
  const kit = names.booths[0]?.kitSheets ?? 400;
  const { bought, used, lost, unexplained } = view.totals;
  return (
    <section class="sheet">
      <h2>{words.title}</h2>
      <ul class="places">
        {view.places.map((place) => (
          <Place key={place.place} place={place} name={placeWords(place.place, names)} kit={kit} />
        ))}
      </ul>
      <p class="cap">
        {words.totals(bought, used, lost)}
        {unexplained > 0 && ` ${words.unexplainedShort(unexplained)}`}
        {unexplained < 0 && ` ${words.unexplainedOver(-unexplained)}`}
      </p>
    </section>
  );
}

function Place({ place, name, kit }: { place: PlaceStock; name: string; kit: number }) {
  const { fullRolls, partials, missing } = place;
  return (
    <li>
      <h3>{name}</h3>
      <p class="amount">
        <b>{fullRolls > 0 ? rollCount(fullRolls) : words.none}</b>
        {partials.length > 0 && ` ${words.parts(partials)}`}
      </p>
      <RollRow full={fullRolls} partials={partials} kit={kit} />
      {fullRolls < 0 && <Owed sentence={words.owes(-fullRolls)} />}
      {missing.length > 0 && <Owed sentence={words.missing(missing)} />}
    </li>
  );
}

function Owed({ sentence }: { sentence: string }) {
  return (
    <p class="owed">
      <Icon name="plan" />
      <span>{sentence}</span>
    </p>
  );
}
