import type { StockView } from "@boothward/shared-types/stock";
import { useState } from "preact/hooks";
import { stockForms as words } from "../words/en/stock.ts";
import { CountForm } from "./CountForm.tsx";
import { MoveForm } from "./MoveForm.tsx";
import { OrderForm } from "./OrderForm.tsx";
import { countedPlaces, type PlaceNames } from "./placeWords.ts";

const kinds = ["count", "move", "order"] as const;

/** What a person may write into the ledger: a count, a move, an order. */
export function StockForms({
  view,
  names,
  changed,
}: {
  view: StockView;
  names: PlaceNames;
  changed: () => void;
}) {
  const [open, setOpen] = useState<(typeof kinds)[number] | null>(null);
  const nextEvents = view.events.slice(0, 6).map(({ bookingId }) => `event:${bookingId}`);
  const held = view.places.map(({ place }) => place);
  const places = countedPlaces([...held, ...nextEvents], names);
  const its = { places, names, changed, close: () => setOpen(null) };
  return (
    <section class="sheet stockforms">
      <div class="row">
        {kinds.map((kind) => (
          <button
            key={kind}
            type="button"
            class="btn"
            aria-expanded={open === kind}
            onClick={() => setOpen(open === kind ? null : kind)}
          >
            {words[kind]}
          </button>
        ))}
      </div>
      {open === "count" && <CountForm {...its} />}
      {open === "move" && <MoveForm {...its} />}
      {open === "order" && <OrderForm rolls={view.advice?.rolls ?? 0} changed={changed} close={its.close} />}
    </section>
  );
}
