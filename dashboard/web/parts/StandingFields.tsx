import { isTimeZone } from "@boothward/shared-types/booking";
import { useState } from "preact/hooks";
import { headingFromShadow } from "../../forecast/sun/heading.ts";
import type { Refusal } from "../state/api.ts";
import type { BookingEntry } from "../state/apiShapes.ts";
import { units } from "../state/signals.ts";
import { standingForm as words } from "../words/en/runSheet.ts";
import { instantOf } from "../words/zonedTime.ts";
import { Field } from "./Field.tsx";
import { readFields } from "./readForm.ts";
import type { Written } from "./readForm.ts";

/** How the booth stands: its heading, written or from a shadow, and the day's high; all may stay empty. */
export function StandingFields({
  booking,
  refusal,
}: {
  booking: BookingEntry | null;
  refusal: Refusal | null;
}) {
  const [heading, setHeading] = useState(booking?.standing.headingDeg?.toString() ?? "");
  const [found, setFound] = useState("");
  const isUs = units.value === "us";
  const highC = booking?.standing.expectedHighC ?? null;
  const workOut = (form: HTMLFormElement | null) => {
    const from = headingFrom(readFields(form));
    if ("headingDeg" in from) setHeading(String(Math.round(from.headingDeg)));
    setFound(from.said);
  };
  return (
    <fieldset class="field">
      <legend>{words.title}</legend>
      <div class="two">
        <Field
          name="standing.headingDeg"
          label={words.heading}
          hint={words.headingHint}
          inputmode="decimal"
          value={heading}
          onWrite={setHeading}
          refusal={refusal}
        />
        <Field
          name="standing.expectedHighC"
          label={words.high(isUs ? "°F" : "°C")}
          hint={words.highHint}
          inputmode="decimal"
          defaultValue={highC === null ? "" : String(isUs ? Math.round(highC * 1.8 + 32) : highC)}
          refusal={refusal}
        />
      </div>
      <details>
        <summary>{words.shadow}</summary>
        <p class="small">{words.shadowHow}</p>
        <div class="two">
          <Field name="shadowDeg" label={words.shadowDeg} inputmode="decimal" refusal={null} />
          <Field name="shadowAt" label={words.shadowAt} type="time" refusal={null} />
        </div>
        <div class="row">
          <button type="button" class="btn" onClick={(event) => workOut(event.currentTarget.form)}>
            {words.workOut}
          </button>
        </div>
        <p class="small" role="status">
          {found}
        </p>
      </details>
    </fieldset>
  );
}

/** The heading by the shadow that was written down; or why there is none. */
function headingFrom(written: Written): { headingDeg: number; said: string } | { said: string } {
  const [latitudeDeg, longitudeDeg] = [written.number("latitudeDeg"), written.number("longitudeDeg")];
  if (typeof latitudeDeg !== "number" || typeof longitudeDeg !== "number") return { said: words.noPlace };
  const shadowDeg = written.number("shadowDeg");
  const zone = written.text("zone");
  const atMs = isTimeZone(zone) ? instantOf(written.text("date"), written.text("shadowAt"), zone) : null;
  if (typeof shadowDeg !== "number" || atMs === null) return { said: words.noShadow };
  const from = headingFromShadow({ latitudeDeg, longitudeDeg }, { atMs, shadowDeg });
  if ("refused" in from) return { said: words.refused[from.refused] };
  const { headingDeg, slackDegPerMinute } = from;
  return { headingDeg, said: words.found(`${Math.round(headingDeg)}°`, `${slackDegPerMinute.toFixed(1)}°`) };
}
