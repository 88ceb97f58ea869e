import { useId, useState } from "preact/hooks";
import { Choice, Field, FormRefusal } from "../parts/Field.tsx";
import { Picks } from "../parts/Picks.tsx";
import { readForm } from "../parts/readForm.ts";
import type { Refusal } from "../state/api.ts";
import { madeReach } from "../state/alertShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";
import { reaches as words } from "../words/en/people.ts";
import { form as formWords } from "../words/en/form.ts";
import { reachBody } from "./reachBody.ts";
import type { FormWay } from "./reachBody.ts";

const { email, webhook, http } = words.way;
const ways: Record<FormWay, string> = { email, webhook, http };
const shown = ["label", "body.to", "body.url", "body.method", "body.form"];

/** One more way to be reached: an e-mail address, a webhook, or a web call of one's own making. */
export function ReachForm(props: { added: (secret: string | null) => void; cancel: () => void }) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [way, setWay] = useState<FormWay>("email");
  const submit = async (event: SubmitEvent) => {
    const body = reachBody(way, readForm(event));
    const made = await send(() => page.call("POST", "/api/reaches", madeReach, body));
    if (made !== null) props.added(made.secret ?? null);
  };
  return (
    <form onSubmit={(event) => void submit(event)} noValidate>
      <Picks label={words.add} name="way" options={ways} chosen={way} choose={setWay} />
      <Field name="label" label={words.label} defaultValue={ways[way]} maxlength={80} refusal={refusal} />
      {way === "email" && <Field name="body.to" label={words.to} autocomplete="off" refusal={refusal} />}
      {way === "webhook" && (
        <Field name="body.url" label={words.url} hint={words.urlHint} autocomplete="off" refusal={refusal} />
      )}
      {way === "http" && <CallFields refusal={refusal} />}
      <FormRefusal refusal={refusal} shown={shown} />
      <div class="row">
        <button type="button" class="btn" onClick={props.cancel}>
          {words.cancel}
        </button>
        <button class="btn main" disabled={isBusy}>
          {isBusy ? formWords.sending : words.save}
        </button>
      </div>
    </form>
  );
}

function CallFields({ refusal }: { refusal: Refusal | null }) {
  const [method, setMethod] = useState("POST");
  const [form, setForm] = useState("json");
  return (
    <>
      <Field
        name="body.url"
        label={words.url}
        hint={words.templateHint}
        autocomplete="off"
        refusal={refusal}
      />
      <Choice name="body.method" label={words.method} value={method} onChoose={setMethod} refusal={refusal}>
        {["GET", "POST", "PUT"].map((each) => (
          <option key={each}>{each}</option>
        ))}
      </Choice>
      <Choice name="body.form" label={words.form} value={form} onChoose={setForm} refusal={refusal}>
        {Object.entries(words.forms).map(([each, word]) => (
          <option key={each} value={each}>
            {word}
          </option>
        ))}
      </Choice>
      <TextArea name="body.headers" label={words.headers} written="" />
      <TextArea name="body.template" label={words.template} written={'{"text": "{text}"}'} />
    </>
  );
}

function TextArea({ name, label, written }: { name: string; label: string; written: string }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{label}</label>
      <textarea id={id} name={name} rows={3} spellcheck={false} defaultValue={written} />
    </div>
  );
}
