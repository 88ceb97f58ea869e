/** An entry of a file as it stands there, before it is held against the plan. */
export type RawBooking = {
  readonly line: number;
  /** The booking it was once written from; null: a new one. */
  readonly bookingId: string | null;
  /** A booth's name or id. */
  readonly booth: string;
  /** What the file says of the booking, by where it is in it ("power.volts"); what it does not say is left out. */
  readonly fields: Readonly<Record<string, unknown>>;
};
