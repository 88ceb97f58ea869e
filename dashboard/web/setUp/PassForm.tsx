import { Field, FormRefusal } from "../parts/Field.tsx";
import { readForm } from "../parts/readForm.ts";
import { madePass } from "../state/alertShapes.ts";
import type { MadePass } from "../state/alertShapes.ts";
import type { BookingEntry, BoothEntry } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { slowMs, units } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { passes as words } from "../words/en/people.ts";
import { formatIn } from "../../alerts/format.ts";
import { form as formWords } from "../words/en/form.ts";

type PassFormProps = {
  bookings: readonly BookingEntry[];
  booths: readonly BoothEntry[];
  made: (name: string, pass: MadePass) => void;
};

/** After the close a pass still lets in who packs down: a booking of the last hours may be chosen. */
const packDownMs = 6 * 3_600_000;
/** More than a page's worth of choices helps nobody; the next ones come first. */
const mostShown = 12;

/** For whom a link is, and for which bookings. */
export function PassForm({ bookings, booths, made }: PassFormProps) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const choices = bookings
    .filter(({ closeAtMs }) => closeAtMs + packDownMs > slowMs.value)
    .sort((a, b) => a.openAtMs - b.openAtMs)
    .slice(0, mostShown);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const name = written.text("name");
    const bookingIds = choices.map(({ bookingId }) => bookingId).filter(written.has);
    const pass = await send(() => page.call("POST", "/api/passes", madePass, { name, bookingIds }));
    if (pass !== null) made(name, pass);
  };
  if (choices.length === 0) return <p>{words.noBookings}</p>;
  return (
    <form onSubmit={(event) => void submit(event)}>
      <Field name="name" label={words.name} autocomplete="off" maxlength={80} refusal={refusal} />
      <fieldset class="field">
        <legend>{words.bookings}</legend>
        {choices.map((booking) => (
          <label key={booking.bookingId} class="pick">
            <input type="checkbox" name={booking.bookingId} defaultChecked={choices.length === 1} />
            {words.booking(
              booths.find(({ boothId }) => boothId === booking.boothId)?.name ?? "",
              booking.client,
              formatIn(booking.zone, units.value).day(booking.openAtMs),
            )}
          </label>
        ))}
      </fieldset>
      <FormRefusal refusal={refusal} shown={["name"]} />
      <button class="btn main" disabled={isBusy}>
        {isBusy ? formWords.sending : words.make}
      </button>
    </form>
  );
}
