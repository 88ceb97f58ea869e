import { useState } from "preact/hooks";
import { Choice, Field, FormRefusal } from "../parts/Field.tsx";
import { FormButtons } from "../parts/FormButtons.tsx";
import { readForm } from "../parts/readForm.ts";
import { stockForms as words } from "../words/en/stock.ts";
import { moveReason } from "./moveReason.ts";
import { placeWords, type PlaceNames } from "./placeWords.ts";
import { useStockLine } from "./useStockLine.ts";

const shown = ["fromPlace", "toPlace", "rolls", "partialSheets", "note"];

/** Rolls from one place to another. */
export function MoveForm(props: {
  /** Places that hold rolls or may. */
  places: readonly string[];
  names: PlaceNames;
  changed: () => void;
  close: () => void;
}) {
  const { refusal, isBusy, write } = useStockLine(props.changed);
  const [fromPlace, setFrom] = useState("store");
  const [toPlace, setTo] = useState(props.places.find((place) => place !== "store") ?? "lost");
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const move = {
      ...{ fromPlace, toPlace, why: moveReason(fromPlace, toPlace), rolls: written.number("rolls") ?? 0 },
      ...{ partialSheets: written.number("partialSheets"), note: written.textOrNull("note") },
    };
    if (await write("/api/stock/moves", move)) props.close();
  };
  const options = (places: readonly string[]) =>
    places.map((each) => (
      <option key={each} value={each}>
        {placeWords(each, props.names)}
      </option>
    ));
  return (
    <form onSubmit={(event) => void submit(event)}>
      <div class="two">
        <Choice name="fromPlace" label={words.from} value={fromPlace} onChoose={setFrom} refusal={refusal}>
          {options([...props.places, "supplier", "used", "lost"])}
        </Choice>
        <Choice name="toPlace" label={words.to} value={toPlace} onChoose={setTo} refusal={refusal}>
          {options([...props.places, "used", "lost"])}
        </Choice>
        <Field name="rolls" inputmode="numeric" label={words.rolls} refusal={refusal} />
        <Field name="partialSheets" inputmode="numeric" label={words.part} refusal={refusal} />
      </div>
      <Field name="note" label={words.note} maxlength={200} refusal={refusal} />
      <FormRefusal refusal={refusal} shown={shown} />
      <FormButtons isBusy={isBusy} word={words.moveSend} cancel={props.close} />
    </form>
  );
}
