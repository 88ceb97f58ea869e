import type { BookingInput } from "@boothward/shared-types";

/** An entry of a file as it stands there, before it is held against the plan. */
export type RawBooking = {
  readonly line: number;
  /** The booking it was once written from; null: a new one. */
  readonly bookingId: string | null;
  /** A booth's name or id. */
  readonly booth: string;
  /** What the file says of the booking; what it does not say is left out. */
  readonly fields: Readonly<Partial<Record<keyof BookingInput, unknown>>>;
};
