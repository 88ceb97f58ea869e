import type { MediaOrder } from "@boothward/shared-types/stock";
import { useState } from "preact/hooks";
import { Field, FormRefusal } from "../parts/Field.tsx";
import { FormButtons } from "../parts/FormButtons.tsx";
import { readForm } from "../parts/readForm.ts";
import { slowMs } from "../state/signals.ts";
import { rollCount, stockOrders as words } from "../words/en/stock.ts";
import type { Format } from "../../alerts/format.ts";
import { Owed } from "./Owed.tsx";
import { useStockLine } from "./useStockLine.ts";

/** An order expected for a day may come in the evening of it; the day is kept by its noon. */
const lateAfterMs = 12 * 3_600_000;

/** Orders of which rolls are still to come. */
export function OrdersOpen(props: { orders: readonly MediaOrder[]; format: Format; changed: () => void }) {
  const open = props.orders.filter(({ arrivedAtMs }) => arrivedAtMs === null);
  if (open.length === 0) return null;
  return (
    <section class="sheet">
      <h2>{words.title}</h2>
      {open.map((order) => (
        <OpenOrder key={order.orderId} order={order} format={props.format} changed={props.changed} />
      ))}
    </section>
  );
}

function OpenOrder({ order, format, changed }: { order: MediaOrder; format: Format; changed: () => void }) {
  const { refusal, isBusy, write } = useStockLine(changed);
  const [isAsking, setAsking] = useState(false);
  const { orderId, rolls, orderedAtMs, expectedAtMs, arrivedRolls, note } = order;
  const submit = async (event: SubmitEvent) => {
    const came = readForm(event).number("rolls");
    if (await write(`/api/stock/orders/${encodeURIComponent(orderId)}/arrived`, { rolls: came }))
      setAsking(false);
  };
  const details = [
    ...(arrivedRolls > 0 ? [words.came(arrivedRolls, rolls)] : []),
    ...(expectedAtMs === null ? [] : [words.expected(format.day(expectedAtMs))]),
    ...(note === null ? [] : [note]),
  ];
  const isLate = expectedAtMs !== null && slowMs.value > expectedAtMs + lateAfterMs;
  return (
    <div class="openorder">
      <p>
        <b>{words.line(rollCount(rolls), format.day(orderedAtMs))}</b>
      </p>
      {details.length > 0 && <p class="small">{details.join(" · ")}</p>}
      {isLate && <Owed sentence={words.overdue} />}
      {isAsking ? (
        <form onSubmit={(event) => void submit(event)}>
          <Field
            name="rolls"
            inputmode="numeric"
            label={words.howMany}
            defaultValue={String(rolls - arrivedRolls)}
            refusal={refusal}
          />
          <FormRefusal refusal={refusal} shown={["rolls"]} />
          <FormButtons isBusy={isBusy} word={words.put} cancel={() => setAsking(false)} />
        </form>
      ) : (
        <div class="row">
          <button type="button" class="btn" onClick={() => setAsking(true)}>
            {words.they}
          </button>
        </div>
      )}
    </div>
  );
}
