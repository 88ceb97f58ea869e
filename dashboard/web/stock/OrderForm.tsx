import { Field, FormRefusal } from "../parts/Field.tsx";
import { FormButtons } from "../parts/FormButtons.tsx";
import { readForm } from "../parts/readForm.ts";
import { deviceZone } from "../state/signals.ts";
import { stockForms as words } from "../words/en/stock.ts";
import { instantOf } from "../words/zonedTime.ts";
import { useStockLine } from "./useStockLine.ts";

/** An order that was made just now. */
export function OrderForm(props: { rolls: number; changed: () => void; close: () => void }) {
  const { refusal, isBusy, write } = useStockLine(props.changed);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const expectedAtMs = instantOf(written.text("expectedAtMs"), "12:00", deviceZone);
    const order = { rolls: written.number("rolls"), expectedAtMs, note: written.textOrNull("note") };
    if (await write("/api/stock/orders", order)) props.close();
  };
  return (
    <form onSubmit={(event) => void submit(event)}>
      <Field
        name="rolls"
        inputmode="numeric"
        label={words.orderRolls}
        defaultValue={props.rolls > 0 ? String(props.rolls) : ""}
        required
        refusal={refusal}
      />
      <Field name="expectedAtMs" type="date" label={words.expected} refusal={refusal} />
      <Field name="note" label={words.note} maxlength={200} refusal={refusal} />
      <FormRefusal refusal={refusal} shown={["rolls", "expectedAtMs", "note"]} />
      <FormButtons isBusy={isBusy} word={words.orderSend} cancel={props.close} />
    </form>
  );
}
