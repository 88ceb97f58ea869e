import type { PlaceStock } from "@boothward/shared-types/stock";
import { FormRefusal } from "../parts/Field.tsx";
import { stockPlaces as words } from "../words/en/stock.ts";
import { placeWords, type PlaceNames } from "./placeWords.ts";
import { useStockLine } from "./useStockLine.ts";

/**
 * Writes in one press that all that is left at an event came back: into the store, or into the case of its booth.
 * Each part roll is a line of its own.
 */
export function BringBack(props: {
  place: PlaceStock;
  /** The case of the booth that was there; null: the event is not known any more. */
  boothCase: string | null;
  names: PlaceNames;
  changed: () => void;
}) {
  const { place, boothCase, names, changed } = props;
  const { refusal, isBusy, write } = useStockLine(changed);
  const bring = async (toPlace: string) => {
    const line = { fromPlace: place.place, toPlace, why: "returned" };
    const lines = [
      ...(place.fullRolls > 0 ? [{ ...line, rolls: place.fullRolls }] : []),
      ...place.partials.map((partialSheets) => ({ ...line, rolls: 0, partialSheets })),
    ];
    for (const each of lines) if (!(await write("/api/stock/moves", each))) return;
  };
  return (
    <>
      <p class="small">{words.isOver}</p>
      <div class="row">
        {["store", ...(boothCase === null ? [] : [boothCase])].map((to) => (
          <button key={to} type="button" class="btn" disabled={isBusy} onClick={() => void bring(to)}>
            {words.back(placeWords(to, names))}
          </button>
        ))}
      </div>
      <FormRefusal refusal={refusal} shown={[]} />
    </>
  );
}
