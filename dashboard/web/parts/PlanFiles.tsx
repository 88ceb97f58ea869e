import { useState } from "preact/hooks";
import { boothList } from "../state/apiShapes.ts";
import { deviceZone } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { planFiles as words } from "../words/en/planFiles.ts";
import { Choice, Field } from "./Field.tsx";
import { FileIn } from "./FileIn.tsx";
import "../styles/stock.css";

/** The run sheet as a table or a calendar, and either of them into the run sheet. */
export function PlanFiles({ kept }: { kept: () => void }) {
  const { answer } = useAnswer("/api/booths", boothList);
  const [zone, setZone] = useState(deviceZone);
  const [booth, setBooth] = useState("");
  return (
    <section class="sheet">
      <details>
        <summary>{words.title}</summary>
        <div class="row">
          <a class="btn" href="/api/bookings.csv" download="run-sheet.csv">
            {words.csv}
          </a>
          <a class="btn" href="/api/bookings.ics" download="run-sheet.ics">
            {words.ics}
          </a>
        </div>
        <div class="two">
          <Field name="zone" label={words.zone} value={zone} onWrite={setZone} refusal={null} />
          <Choice name="booth" label={words.booth} value={booth} onChoose={setBooth} refusal={null}>
            <option value="">{words.noBooth}</option>
            {answer?.booths.map(({ boothId, name }) => (
              <option key={boothId} value={boothId}>
                {name}
              </option>
            ))}
          </Choice>
        </div>
        <FileIn
          address="/api/bookings/import"
          label={words.upload}
          hint={words.uploadHint}
          accept=".csv,.tsv,.txt,.ics,text/csv,text/calendar"
          bodyOf={(text, name) => ({ text, zone, booth, format: /\.ics$/i.test(name) ? "ics" : "csv" })}
          kept={kept}
        />
      </details>
    </section>
  );
}
