import { stockView } from "@boothward/shared-types/stock";
import { useState } from "preact/hooks";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { Picks } from "../parts/Picks.tsx";
import { boothList, bookingList } from "../state/apiShapes.ts";
import { formatOf } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { EventsAhead } from "../stock/EventsAhead.tsx";
import { MoveList } from "../stock/MoveList.tsx";
import { OrdersOpen } from "../stock/OrdersOpen.tsx";
import { PlaceCards } from "../stock/PlaceCards.tsx";
import { SeasonEndForm } from "../stock/SeasonEndForm.tsx";
import { StockForms } from "../stock/StockForms.tsx";
import { stockVerdict } from "../stock/stockVerdict.ts";
import { stock as words } from "../words/en/stock.ts";
import "../styles/stock.css";

type Service = keyof typeof words.services;

/** Rolls: by when to order how many, where they are, what will use them, and every move of them. */
export function Stock() {
  const [service, setService] = useState<Service>("0.99");
  const [before, setBefore] = useState<string | null>(null);
  const page = before === null ? "" : `&before=${encodeURIComponent(before)}`;
  const stock = useAnswer(`/api/stock?service=${service}${page}`, stockView);
  const booths = useAnswer("/api/booths", boothList);
  const bookings = useAnswer("/api/bookings", bookingList);
  const format = formatOf(null);
  const view = stock.answer;
  const verdict = view === null ? null : stockVerdict(view, format);
  const names = { booths: booths.answer?.booths ?? [], bookings: bookings.answer?.bookings ?? [] };
  const changed = () => void stock.again();
  return (
    <Frame title={words.title} bar={<Mark />}>
      <div class="verdict">
        <h1 tabIndex={-1}>{verdict?.headline ?? words.asking}</h1>
        {verdict?.because.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      <FormRefusal refusal={stock.refusal ?? booths.refusal ?? bookings.refusal} shown={[]} />
      {view !== null && (
        <div class="cols">
          <div>
            <StockForms view={view} names={names} changed={changed} />
            <OrdersOpen orders={view.orders} format={format} changed={changed} />
            <PlaceCards view={view} names={names} changed={changed} />
            <EventsAhead view={view} names={names} />
          </div>
          <div>
            <MoveList
              view={view}
              names={names}
              format={format}
              changed={changed}
              before={before}
              show={setBefore}
            />
            <section class="sheet">
              <Picks
                label={words.service}
                name="service"
                options={words.services}
                chosen={service}
                choose={setService}
              />
            </section>
            <SeasonEndForm />
          </div>
        </div>
      )}
    </Frame>
  );
}
