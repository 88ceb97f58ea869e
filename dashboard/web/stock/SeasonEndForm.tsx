import { seasonEnd as seasonEndShape, type SeasonEnd } from "@boothward/shared-types/stock";
import { useState } from "preact/hooks";
import { Field, FormRefusal } from "../parts/Field.tsx";
import { readForm } from "../parts/readForm.ts";
import { usePage } from "../state/pageContext.ts";
import { deviceZone } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { form as formWords } from "../words/en/form.ts";
import { rollCount, seasonEnd as words } from "../words/en/stock.ts";
import { instantOf } from "../words/zonedTime.ts";

/** How much to order for the last time before a season ends. */
export function SeasonEndForm() {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [found, setFound] = useState<SeasonEnd | null>(null);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const query = new URLSearchParams({
      endAtMs: String(instantOf(written.text("endAtMs"), "23:59", deviceZone) ?? ""),
      shortCost: String(written.number("shortCost") ?? ""),
      leftCost: String(written.number("leftCost") ?? ""),
    });
    setFound(await send(() => page.call("GET", `/api/stock/season-end?${query.toString()}`, seasonEndShape)));
  };
  return (
    <section class="sheet">
      <details>
        <summary>{words.open}</summary>
        <p class="small">{words.lead}</p>
        <form onSubmit={(event) => void submit(event)}>
          <Field name="endAtMs" type="date" label={words.ends} required refusal={refusal} />
          <div class="two">
            <Field
              name="shortCost"
              inputmode="decimal"
              label={words.short}
              hint={words.costHint}
              required
              refusal={refusal}
            />
            <Field name="leftCost" inputmode="decimal" label={words.left} required refusal={refusal} />
          </div>
          <FormRefusal refusal={refusal} shown={["endAtMs", "shortCost", "leftCost"]} />
          <div class="row">
            <button class="btn" disabled={isBusy}>
              {isBusy ? formWords.sending : words.send}
            </button>
          </div>
        </form>
        <div role="status">{found !== null && <Found found={found} />}</div>
      </details>
    </section>
  );
}

function Found({ found }: { found: SeasonEnd }) {
  const share = (found.enoughShare * 100).toFixed(0);
  return (
    <>
      <p class="do">{found.rolls === 0 ? words.none(share) : words.answer(rollCount(found.rolls), share)}</p>
      <p>{words.use(found.meanUse.toFixed(1), found.highUse.toFixed(1))}</p>
    </>
  );
}
