import { eventOf } from "@boothward/shared-types/booking";
import { useState } from "preact/hooks";
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

/** The other booking of an event that could not be copied, and why. */
export type NotCopied = { booking: BookingEntry; sentence: string };

/**
 * Saves what a form of a booking says: a new one, a changed one, or a copy with the other booths of its event, each as
 * many days later. `notCopied`: those that the dashboard refused, after the rest was made.
 */
export function useSaveBooking({ booking, isCopy, others, saved }: Saving) {
  const page = usePage();
  const { refusal, isBusy, send } = useSend();
  const [notCopied, setNotCopied] = useState<readonly NotCopied[]>([]);
  const submit = async (event: SubmitEvent) => {
    const written = readForm(event);
    const horizon = booking?.standing.horizon ?? [];
    const body = bookingBody(written, { horizon, units: units.value, plan: booking });
    const made = await send(() =>
      booking === null || isCopy
        ? page.call("POST", "/api/bookings", bookingShape, isCopy ? { ...body, eventId: null } : body)
        : page.call("PUT", `/api/bookings/${encodeURIComponent(booking.bookingId)}`, bookingShape, body),
    );
    if (made === null) return;
    const left =
      isCopy && booking !== null && written.has("withOthers") ? await copyOthers(booking, made) : [];
    setNotCopied(left);
    if (left.length === 0) saved();
  };
  const copyOthers = async (from: BookingEntry, to: BookingEntry): Promise<NotCopied[]> => {
    const left: NotCopied[] = [];
    for (const other of others) {
      const body = { ...movedBooking(other, from, to), eventId: eventOf(to) };
      const answer = await page.call("POST", "/api/bookings", bookingShape, body);
      if ("refusal" in answer) left.push({ booking: other, sentence: answer.refusal.sentence });
    }
    return left;
  };
  return { refusal, isBusy, notCopied, submit };
}
