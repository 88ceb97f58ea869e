import { useState } from "preact/hooks";
import { Choice, Field, FormRefusal } from "../parts/Field.tsx";
import { FormButtons } from "../parts/FormButtons.tsx";
import { readForm } from "../parts/readForm.ts";
import { stockForms as words } from "../words/en/stock.ts";
import { placeWords, type PlaceNames } from "./placeWords.ts";
import { useStockLine } from "./useStockLine.ts";

const shown = ["place", "fullRolls", "partials", "note"];

/** What a person counted at a place; the difference to the ledger is worked out there. */
export function CountForm(props: {
  places: readonly string[];
  names: PlaceNames;
  changed: () => void;
  close: () => void;
}) {
  const { refusal, isBusy, write } = useStockLine(props.changed);
  const [place, setPlace] = useState(props.places[0] ?? "store");
  const [isWrong, setWrong] = useState(false);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const partials = sheetsIn(written.text("partials"));
    setWrong(partials === null);
    if (partials === null) return;
    const counted = {
      place,
      fullRolls: written.number("fullRolls"),
      partials,
      note: written.textOrNull("note"),
    };
    if (await write("/api/stock/counts", counted)) props.close();
  };
  const own = isWrong ? { error: "wrongField", sentence: words.partialsWrong, field: "partials" } : null;
  return (
    <form onSubmit={(event) => void submit(event)}>
      <Choice name="place" label={words.place} value={place} onChoose={setPlace} refusal={refusal}>
        {props.places.map((each) => (
          <option key={each} value={each}>
            {placeWords(each, props.names)}
          </option>
        ))}
      </Choice>
      <Field name="fullRolls" inputmode="numeric" label={words.fullRolls} required refusal={refusal} />
      <Field
        name="partials"
        inputmode="numeric"
        label={words.partials}
        hint={words.partialsHint}
        refusal={own ?? refusal}
      />
      <Field name="note" label={words.note} maxlength={200} refusal={refusal} />
      <FormRefusal refusal={refusal} shown={shown} />
      <FormButtons isBusy={isBusy} word={words.countSend} cancel={props.close} />
    </form>
  );
}

/** "158 90" as numbers; null for what is none. */
function sheetsIn(text: string): number[] | null {
  const numbers = text
    .split(/[\s,;]+/)
    .filter((part) => part !== "")
    .map(Number);
  return numbers.every((each) => Number.isInteger(each) && each > 0) ? numbers : null;
}
