import {
  figureWord,
  report as reportShape,
  type FigureWord,
  type Report,
} from "@boothward/shared-types/report";
import { useState } from "preact/hooks";
import { figureOf } from "../../reports/withMore.ts";
import { venueFormat } from "../../reports/venueFormat.ts";
import { Choice, Field, FormRefusal } from "../parts/Field.tsx";
import { readForm } from "../parts/readForm.ts";
import { usePage } from "../state/pageContext.ts";
import { useSend } from "../state/useSend.ts";
import { report as words } from "../words/en/reports.ts";

/** Puts a figure right, and shows what was put right before, by whom and why. */
export function CorrectForm({ report, corrected }: { report: Report; corrected: (report: Report) => void }) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  // A box of the name "is" would keep browsers from making any element in its form.
  const [field, setField] = useState<FigureWord>("sessions");
  const { bookingId, corrections } = report.owner;
  const now = figureOf(report, field);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const body = { field, becomes: written.number("becomes"), why: written.text("why") };
    const address = `/api/reports/${encodeURIComponent(bookingId)}/corrections`;
    const answer = await send(() => page.call("POST", address, reportShape, body));
    if (answer !== null) corrected(answer);
  };
  return (
    <section class="sheet">
      <h2>{words.correct}</h2>
      <p class="small">{words.correctLead}</p>
      <form key={`${field} ${corrections.length}`} onSubmit={(event) => void submit(event)}>
        <div class="two">
          <Choice
            name="field"
            label={words.correctField}
            value={field}
            refusal={refusal}
            onChoose={(chosen) => setField(figureWord.parse(chosen))}
          >
            {(Object.keys(words.fields) as FigureWord[]).map((each) => (
              <option key={each} value={each}>
                {words.fields[each]}
              </option>
            ))}
          </Choice>
          <Field
            name="becomes"
            label={words.correctIs}
            inputmode="numeric"
            required
            defaultValue={now === null ? "" : String(now)}
            refusal={refusal}
          />
        </div>
        <Field
          name="why"
          label={words.correctWhy}
          hint={words.correctWhyHint}
          maxlength={200}
          required
          refusal={refusal}
        />
        <FormRefusal refusal={refusal} shown={["field", "becomes", "why"]} />
        <button class="btn" disabled={isBusy}>
          {words.correctSave}
        </button>
      </form>
      <Trail report={report} />
    </section>
  );
}

function Trail({ report }: { report: Report }) {
  const { corrections } = report.owner;
  const format = venueFormat(report.client.zone);
  if (corrections.length === 0) return null;
  return (
    <>
      <h3>{words.trail}</h3>
      <ul class="trail">
        {corrections.map(({ field, was, is, why, by, atMs }) => (
          <li key={atMs}>
            {words.trailLine(words.fields[field], was === null ? "?" : format.count(was), format.count(is))}
            <br />
            <span class="small">{words.trailWhy(why, by, `${format.day(atMs)}, ${format.clock(atMs)}`)}</span>
          </li>
        ))}
      </ul>
    </>
  );
}
