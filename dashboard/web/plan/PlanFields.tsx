import { eventOf } from "@boothward/shared-types/booking";
import { printSize } from "@boothward/shared-types/words";
import { useId, useState } from "preact/hooks";
import { Choice, Field } from "../parts/Field.tsx";
import { mostRows } from "../parts/planBody.ts";
import type { Refusal } from "../state/api.ts";
import type { BookingEntry } from "../state/apiShapes.ts";
import { units } from "../state/signals.ts";
import { planForm as words } from "../words/en/plan.ts";
import { formatIn } from "../../alerts/format.ts";
import { wallOf } from "../words/zonedTime.ts";
import { HorizonFields } from "./HorizonFields.tsx";
import { PowerFields } from "./PowerFields.tsx";

export type PlanFieldsProps = {
  booking: BookingEntry | null;
  bookings: readonly BookingEntry[];
  refusal: Refusal | null;
};

const dayMs = 86_400_000;

/** What else may be planned: people and print, breaks, notes, and power with its sum. */
export function PlanFields({ booking, bookings, refusal }: PlanFieldsProps) {
  const text = (value: number | string | null | undefined) => (value == null ? "" : String(value));
  const time = (atMs: number | null) =>
    atMs === null || booking === null ? "" : wallOf(atMs, booking.zone).time;
  return (
    <>
      <details {...(folded.has(refusal?.field ?? "") ? { open: true } : {})}>
        <summary>{words.people}</summary>
        <div class="more-fields">
          <fieldset class="field">
            <legend>{words.sizes}</legend>
            <div class="choices">
              {printSize.options.map((size) => (
                <label key={size} class="pick">
                  <input
                    type="checkbox"
                    name={`printSize.${size}`}
                    defaultChecked={booking?.printSizes.includes(size) ?? false}
                  />
                  {words.size[size]}
                </label>
              ))}
            </div>
          </fieldset>
          <div class="two">
            <Field
              name="printsPerSession"
              label={words.prints}
              hint={words.printsHint}
              inputmode="decimal"
              defaultValue={text(booking?.printsPerSession)}
              refusal={refusal}
            />
            <Field
              name="promisedAtMs"
              label={words.promised}
              type="time"
              defaultValue={time(booking?.promisedAtMs ?? null)}
              refusal={refusal}
            />
            <Field
              name="travelMin"
              label={words.travel}
              inputmode="numeric"
              defaultValue={text(booking?.travelMin)}
              refusal={refusal}
            />
          </div>
          <SameEvent booking={booking} bookings={bookings} refusal={refusal} />
          <Breaks booking={booking} time={time} refusal={refusal} />
          <Notes text={booking?.notes ?? ""} />
        </div>
      </details>
      <HorizonFields horizon={booking?.standing.horizon ?? []} refusal={refusal} />
      <PowerFields power={booking?.power ?? null} refusal={refusal} />
    </>
  );
}

/** Several booths at one event are told apart from several events by a choice among the bookings of those days. */
function SameEvent({ booking, bookings, refusal }: PlanFieldsProps) {
  const [chosen, setChosen] = useState(booking?.eventId ?? "");
  const others = bookings.filter(
    (each) =>
      each.bookingId !== booking?.bookingId &&
      (booking === null || Math.abs(each.openAtMs - booking.openAtMs) < 2 * dayMs),
  );
  const events = new Map(others.map((each) => [eventOf(each), each]));
  // Its own name, given when another booking joined it, is none to choose.
  const isOwn = chosen !== "" && !events.has(chosen);
  return (
    <Choice name="eventId" label={words.event} value={chosen} refusal={refusal} onChoose={setChosen}>
      <option value={isOwn ? chosen : ""}>{words.eventNone}</option>
      {[...events].map(([eventId, each]) => (
        <option key={eventId} value={eventId}>
          {`${each.client}, ${formatIn(each.zone, units.value).day(each.openAtMs)}`}
        </option>
      ))}
    </Choice>
  );
}

type BreaksProps = Pick<PlanFieldsProps, "booking" | "refusal"> & { time: (atMs: number) => string };

function Breaks({ booking, time, refusal }: BreaksProps) {
  const breaks = booking?.breaks ?? [];
  const [shown, setShown] = useState(Math.max(1, breaks.length));
  return (
    <fieldset class="field">
      <legend>{words.breaks}</legend>
      {Array.from({ length: shown }, (_, at) => (
        <div key={at} class="two">
          {(["from", "to"] as const).map((end) => {
            const atMs = breaks[at]?.[`${end}AtMs`];
            return (
              <Field
                key={end}
                name={`break.${at}.${end}`}
                label={words[end](at + 1)}
                type="time"
                defaultValue={atMs === undefined ? "" : time(atMs)}
                refusal={asOfFirst(refusal)}
              />
            );
          })}
        </div>
      ))}
      {shown < mostRows.breaks && (
        <button type="button" class="btn" onClick={() => setShown(shown + 1)}>
          {words.addBreak}
        </button>
      )}
    </fieldset>
  );
}

/** A refusal of the breaks stands at the first of them. */
function asOfFirst(refusal: Refusal | null): Refusal | null {
  return refusal?.field === "breaks" ? { ...refusal, field: "break.0.from" } : null;
}

/** What the dashboard may refuse of the fields that are folded away. */
const folded: ReadonlySet<string> = new Set([
  ...["printSizes", "printsPerSession", "promisedAtMs", "travelMin", "eventId", "breaks", "notes"],
]);

function Notes({ text }: { text: string }) {
  const id = useId();
  return (
    <div class="field">
      <label for={id}>{words.notes}</label>
      <textarea
        name="notes"
        id={id}
        rows={3}
        maxLength={2000}
        defaultValue={text}
        aria-describedby={`${id}-hint`}
      />
      <span class="small" id={`${id}-hint`}>
        {words.notesHint}
      </span>
    </div>
  );
}
