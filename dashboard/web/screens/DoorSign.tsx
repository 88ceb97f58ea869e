import { planView } from "@boothward/shared-types/planView";
import type { PlanView } from "@boothward/shared-types/planView";
import { useState } from "preact/hooks";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame } from "../parts/Frame.tsx";
import { BackFromPlan } from "../plan/BackFromPlan.tsx";
import { units } from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { loadOutWords, sign as words } from "../words/en/plan.ts";
import { listed } from "../words/en/today.ts";
import { formatIn } from "../../alerts/format.ts";
import "../styles/plan.css";

/** A sign for the booth's door: its hours and rules, to be changed here and printed on one page. */
export function DoorSign({ bookingId }: { bookingId: string }) {
  const address = `/api/bookings/${encodeURIComponent(bookingId)}/plan`;
  const { answer, refusal } = useAnswer(address, planView);
  const [rules, setRules] = useState(words.usual.join("\n"));
  return (
    <Frame title={words.title} bar={<BackFromPlan boothId={answer?.booking.boothId ?? null} />}>
      <div class="verdict noprint">
        <h1 tabIndex={-1}>
          {answer !== null ? words.title : refusal === null ? words.asking : loadOutWords.gone}
        </h1>
        {answer !== null && <p>{words.lead}</p>}
      </div>
      <FormRefusal refusal={refusal} shown={[]} />
      {answer !== null && (
        <div class="cols">
          <Sign plan={answer} rules={rules} />
          <div class="noprint">
            <label class="field">
              <b>{words.rules}</b>
              <textarea rows={8} value={rules} onInput={(event) => setRules(event.currentTarget.value)} />
            </label>
            <div class="row">
              <button type="button" class="btn main" onClick={() => window.print()}>
                {words.print}
              </button>
            </div>
          </div>
        </div>
      )}
    </Frame>
  );
}

function Sign({ plan: { booking }, rules }: { plan: PlanView; rules: string }) {
  const format = formatIn(booking.zone, units.value);
  const clock = (atMs: number) => format.clock(atMs);
  const pauses = booking.breaks.map(({ fromAtMs, toAtMs }) => `${clock(fromAtMs)} – ${clock(toAtMs)}`);
  const lines = rules.split("\n").filter((line) => line.trim() !== "");
  return (
    <section class="sheet sign">
      <h2>{words.photo}</h2>
      <p class="whose">{booking.client}</p>
      <p class="when">{words.hours(clock(booking.openAtMs), clock(booking.closeAtMs))}</p>
      {pauses.length > 0 && <p>{words.breaks(listed(pauses))}</p>}
      <ul>
        {lines.map((line, at) => (
          <li key={at}>{line}</li>
        ))}
      </ul>
    </section>
  );
}
