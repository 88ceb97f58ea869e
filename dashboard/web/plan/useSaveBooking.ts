import { isTimeZone } from "@boothward/shared-types/booking";
import { bookingBody } from "../parts/bookingBody.ts";
import { readForm } from "../parts/readForm.ts";
import { booking as bookingShape } from "../state/apiShapes.ts";
import type { BookingEntry } from "../state/apiShapes.ts";
import { usePage } from "../state/pageContext.ts";
import { units } from "../state/signals.ts";
import { useSend } from "../state/useSend.ts";
import { movedBooking } from "./movedBooking.ts";

type Saving = {
  booking: BookingEntry | null;
  /** Another booking is made of it. */
  isCopy: boolean;
  /** The other bookings of its event, which a copy may take along. */
  others: readonly BookingEntry[];
  saved: () => void;
};

/**
 * Saves what a form of a booking says: a new one, a changed one, or a copy with the other booths of its event, each as
 * many days later; these all together or not at all.
 */
export function useSaveBooking({ booking, isCopy, others, saved }: Saving) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const horizon = booking?.standing.horizon ?? [];
    const body = bookingBody(written, { horizon, units: units.value, plan: booking });
    const { zone, openAtMs } = body;
    const isRead = openAtMs !== null && openAtMs > 0 && isTimeZone(zone);
    const alongside =
      isCopy && booking !== null && isRead && written.has("withOthers")
        ? others.map((other) => movedBooking(other, booking, { zone, openAtMs }))
        : [];
    const made = await send(() =>
      booking === null || isCopy
        ? page.call(
            "POST",
            "/api/bookings",
            bookingShape,
            isCopy ? { ...body, eventId: null, alongside } : body,
          )
        : page.call("PUT", `/api/bookings/${encodeURIComponent(booking.bookingId)}`, bookingShape, body),
    );
    if (made !== null) saved();
  };
  return { refusal, isBusy, submit };
}
