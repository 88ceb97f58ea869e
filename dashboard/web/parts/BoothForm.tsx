import type { BoothEntry } from "../state/apiShapes.ts";
import { madeBooth } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { units } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { boothForm as words, form as formWords } from "../words/en/setUp.ts";
import { Field, FormRefusal } from "./Field.tsx";
import { readForm } from "./readForm.ts";

/** Sheets of the usual roll, and a limit that suits most printers' manuals (common practice, no source). */
const usual = { name: "", isTrailer: false, kitSheets: 400, limitC: 40 };

const shown = ["name", "kitSheets", "limitC"];

/** Adds a booth, or changes one; `done` gets its id. */
export function BoothForm(props: {
  booth: BoothEntry | null;
  done: (boothId: string, name: string) => void;
  cancel: (() => void) | null;
}) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const booth = props.booth ?? usual;
  const isUs = units.value === "us";
  const shownLimit = isUs ? Math.round(booth.limitC * 1.8 + 32) : booth.limitC;

  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const limit = written.number("limitC");
    const body = {
      name: written.text("name"),
      isTrailer: written.has("isTrailer"),
      kitSheets: written.number("kitSheets"),
      limitC: isUs && typeof limit === "number" ? Math.round((limit - 32) / 0.18) / 10 : limit,
    };
    const made = await send(() =>
      props.booth === null
        ? page.call("POST", "/api/booths", madeBooth, body)
        : page.call("PUT", `/api/booths/${encodeURIComponent(props.booth.boothId)}`, madeBooth, body),
    );
    if (made !== null) props.done(made.boothId, body.name);
  };

  return (
    <form onSubmit={(event) => void submit(event)}>
      <Field
        name="name"
        label={words.name}
        required
        maxlength={60}
        defaultValue={booth.name}
        refusal={refusal}
      />
      <label class="pick">
        <input type="checkbox" name="isTrailer" defaultChecked={booth.isTrailer} />
        {words.isTrailer}
      </label>
      <div class="two">
        <Field
          name="kitSheets"
          label={words.kitSheets}
          hint={words.kitHint}
          inputmode="numeric"
          required
          defaultValue={String(booth.kitSheets)}
          refusal={refusal}
        />
        <Field
          name="limitC"
          label={words.limit(isUs ? "°F" : "°C")}
          hint={words.limitHint}
          inputmode="decimal"
          required
          defaultValue={String(shownLimit)}
          refusal={refusal}
        />
      </div>
      <FormRefusal refusal={refusal} shown={shown} />
      <div class="row">
        <button class="btn main" disabled={isBusy}>
          {isBusy ? formWords.sending : props.booth === null ? words.add : words.save}
        </button>
        {props.cancel !== null && (
          <button type="button" class="btn" onClick={props.cancel}>
            {formWords.cancel}
          </button>
        )}
      </div>
    </form>
  );
}
