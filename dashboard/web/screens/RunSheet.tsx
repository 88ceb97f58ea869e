import { useState } from "preact/hooks";
import { BookingForm } from "../parts/BookingForm.tsx";
import { BookingList } from "../parts/BookingList.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { later } from "../parts/later.tsx";
import { boothList, bookingList } from "../state/apiShapes.ts";
import type { BookingEntry } from "../state/apiShapes.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { runSheet as words } from "../words/en/runSheet.ts";

/** What the form is open for: a booking to change, one to copy, or a new one. */
type Edited = { booking: BookingEntry | null; isCopy: boolean };
const PlanFiles = later(
  () => import("../parts/PlanFiles.tsx").then((file) => file.PlanFiles),
  () => null,
);

/** The plan: which booth is where, when; with a short form to add to it. */
export function RunSheet() {
  const bookings = useAnswer("/api/bookings", bookingList);
  const booths = useAnswer("/api/booths", boothList);
  const [edited, setEdited] = useState<Edited | null>(null);
  const isThere = bookings.answer !== null && booths.answer !== null;
  const hasBooths = isThere && (booths.answer?.booths.length ?? 0) > 0;
  const count = bookings.answer?.bookings.length ?? 0;
  const close = () => {
    setEdited(null);
    void bookings.again();
  };
  return (
    <Frame title={words.title} bar={<Mark />}>
      <div class="verdict">
        <h1 tabIndex={-1}>{!isThere ? words.asking : count === 0 ? words.none : words.count(count)}</h1>
        {isThere && <p>{booths.answer?.booths.length === 0 ? words.noBooths : words.lead}</p>}
        {hasBooths && edited === null && (
          <div class="row">
            <button
              type="button"
              class="btn main"
              onClick={() => setEdited({ booking: null, isCopy: false })}
            >
              {words.add}
            </button>
          </div>
        )}
      </div>
      <FormRefusal refusal={bookings.refusal ?? booths.refusal} shown={[]} />
      {hasBooths && (
        <div class="cols">
          <BookingList
            bookings={bookings.answer?.bookings ?? []}
            booths={booths.answer?.booths ?? []}
            change={(booking) => setEdited({ booking, isCopy: false })}
            copy={(booking) => setEdited({ booking, isCopy: true })}
            changed={() => void bookings.again()}
          />
          <div>
            {edited !== null && (
              <section class="sheet">
                <BookingForm
                  key={`${edited.booking?.bookingId ?? "new"} ${edited.isCopy}`}
                  {...edited}
                  bookings={bookings.answer?.bookings ?? []}
                  booths={booths.answer?.booths ?? []}
                  close={close}
                />
              </section>
            )}
            <PlanFiles kept={() => void bookings.again()} />
          </div>
        </div>
      )}
    </Frame>
  );
}
