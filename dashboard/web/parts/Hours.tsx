import type { Refusal } from "../state/api.ts";
import type { BookingEntry } from "../state/apiShapes.ts";
import { deviceZone, nowMs } from "../state/signals.ts";
import { bookingForm as words } from "../words/en/runSheet.ts";
import { wallOf } from "../words/zonedTime.ts";
import { Field } from "./Field.tsx";

/** Date, open hours and the zone they are read in; this device's zone unless another is written. */
export function Hours({
  booking,
  isCopy,
  refusal,
}: {
  booking: BookingEntry | null;
  /** The date is to be written anew. */
  isCopy: boolean;
  refusal: Refusal | null;
}) {
  const zone = booking?.zone ?? deviceZone;
  const open =
    booking === null
      ? { date: wallOf(nowMs.value, zone).date, time: "18:00" }
      : wallOf(booking.openAtMs, zone);
  const close = booking === null ? { time: "23:00" } : wallOf(booking.closeAtMs, zone);
  return (
    <>
      <Field
        name="date"
        label={words.date}
        type="date"
        required
        defaultValue={isCopy ? "" : open.date}
        refusal={refusal}
      />
      <div class="two">
        <Field
          name="openAtMs"
          label={words.open}
          type="time"
          required
          defaultValue={open.time}
          refusal={refusal}
        />
        <Field
          name="closeAtMs"
          label={words.close}
          hint={words.closeHint}
          type="time"
          required
          defaultValue={close.time}
          refusal={refusal}
        />
      </div>
      <Field
        name="zone"
        label={words.zone}
        list="zones"
        required
        maxlength={60}
        defaultValue={zone}
        refusal={refusal}
      />
      <datalist id="zones">
        {Intl.supportedValuesOf("timeZone").map((each) => (
          <option key={each} value={each} />
        ))}
      </datalist>
    </>
  );
}
