import { businessSettings, type BusinessSettings } from "@boothward/shared-types/report";
import { useState } from "preact/hooks";
import { Field, FormRefusal } from "../parts/Field.tsx";
import { Picks } from "../parts/Picks.tsx";
import { readForm } from "../parts/readForm.ts";
import { usePage } from "../state/pageContext.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { useSend } from "../state/useSend.ts";
import { business as words } from "../words/en/reports.ts";
import "../styles/report.css";

const address = "/api/settings/business";

/** What the business is called on reports, its logo, its paper, and what a roll costs. */
export function BusinessForm() {
  const { answer, refusal, again } = useAnswer(address, businessSettings);
  return (
    <section class="sheet" id="business">
      <h2>{words.title}</h2>
      <FormRefusal refusal={refusal} shown={[]} />
      {answer !== null && <Form key={JSON.stringify(answer)} saved={answer} again={() => void again()} />}
    </section>
  );
}

function Form({ saved, again }: { saved: BusinessSettings; again: () => void }) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [logo, setLogo] = useState(saved.logo);
  const [paper, setPaper] = useState(saved.paper);
  const [isSaved, setSaved] = useState(false);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const body = {
      ...{ name: written.text("name"), logo, paper, pricePerRoll: written.number("pricePerRoll") },
      currency: written.text("currency").toUpperCase(),
    };
    setSaved(false);
    if ((await send(() => page.call("PUT", address, businessSettings, body))) === null) return;
    setSaved(true);
    again();
  };
  const choose = async (file: File | undefined) => {
    if (file !== undefined) setLogo(base64Of(new Uint8Array(await file.arrayBuffer())));
  };
  return (
    <form onSubmit={(event) => void submit(event)}>
      <Field name="name" label={words.name} maxlength={80} defaultValue={saved.name} refusal={refusal} />
      <div class="field">
        <label for="business-logo">{words.logo}</label>
        <input
          id="business-logo"
          type="file"
          accept="image/png,image/jpeg"
          aria-invalid={refusal?.field === "logo"}
          onChange={(event) => void choose(event.currentTarget.files?.[0])}
        />
      </div>
      {saved.logo !== null && logo === saved.logo && (
        <img class="logo" src={`${address}/logo`} alt={words.logoKeep} />
      )}
      {logo !== null && (
        <button type="button" class="btn" onClick={() => setLogo(null)}>
          {words.logoRemove}
        </button>
      )}
      <Picks label={words.paper} name="paper" options={words.papers} chosen={paper} choose={setPaper} />
      <div class="two">
        <Field
          name="pricePerRoll"
          label={words.price}
          hint={words.priceHint}
          inputmode="decimal"
          defaultValue={saved.pricePerRoll === null ? "" : String(saved.pricePerRoll)}
          refusal={refusal}
        />
        <Field
          name="currency"
          label={words.currency}
          maxlength={3}
          required
          defaultValue={saved.currency}
          refusal={refusal}
        />
      </div>
      <FormRefusal refusal={refusal} shown={["name", "pricePerRoll", "currency"]} />
      <button class="btn main" disabled={isBusy}>
        {words.save}
      </button>
      <p role="status">{isSaved ? words.saved : ""}</p>
    </form>
  );
}

/** Base64 in pieces: a call takes only so many arguments. */
function base64Of(bytes: Uint8Array): string {
  let text = "";
  for (let at = 0; at < bytes.length; at += 0x2000)
    text += String.fromCharCode(...bytes.subarray(at, at + 0x2000));
  return btoa(text);
}
