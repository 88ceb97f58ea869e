import * as z from "zod/mini";
import { powerPlan } from "./power.ts";
import { noStanding, standing } from "./site.ts";
import { printSize } from "./words.ts";

/**
 * A booking: one booth at one client's event with its open hours. The form, the
 * seeds and the store use the same words.
 */

/** An instant within the years a tablet's clock may sensibly claim. */
const instantMs = z.number().check(z.gte(Date.UTC(2000, 0, 1)), z.lte(Date.UTC(2100, 0, 1)));

/** A pause within the open hours. */
export const openBreak = z.object({ fromAtMs: instantMs, toAtMs: instantMs });
export type OpenBreak = z.infer<typeof openBreak>;

export const bookingInput = z
  .object({
    boothId: z.string().check(z.minLength(1)),
    client: z.string().check(z.trim(), z.minLength(1), z.maxLength(120)),
    place: z.string().check(z.trim(), z.maxLength(120)),
    /** wedding, corporate, party, public, gala, or any other word. */
    eventKind: z.string().check(z.trim(), z.minLength(1), z.maxLength(40)),
    /** IANA time zone of the venue; the open hours are read in it. */
    zone: z.string().check(z.minLength(1), z.maxLength(60), z.refine(isTimeZone, "is not a time zone")),
    latitudeDeg: z.nullable(z.number().check(z.gte(-90), z.lte(90))),
    longitudeDeg: z.nullable(z.number().check(z.gte(-180), z.lte(180))),
    openAtMs: instantMs,
    closeAtMs: instantMs,
    guests: z.nullable(z.int().check(z.gte(0), z.lte(1_000_000))),
    sheetsLoaded: z.nullable(z.int().check(z.gte(0), z.lte(5_000))),
    spareRolls: z.int().check(z.gte(0), z.lte(1_000)),
    attendant: z.nullable(z.string().check(z.maxLength(80))),
    printSizes: z._default(z.array(printSize), []),
    /** Prints that a session takes, as agreed; null: not said. A strip is one print. */
    printsPerSession: z._default(z.nullable(z.number().check(z.gt(0), z.lte(20))), null),
    breaks: z._default(z.array(openBreak).check(z.maxLength(12)), []),
    /** Bookings of one event share this; null: it is named by its own id alone. */
    eventId: z._default(z.nullable(z.string().check(z.minLength(1), z.maxLength(80))), null),
    power: z._default(z.nullable(powerPlan), null),
    /** By when it was promised to stand ready; null: by the opening. */
    promisedAtMs: z._default(z.nullable(instantMs), null),
    /** Minutes of driving to the place; null: not said. */
    travelMin: z._default(z.nullable(z.int().check(z.gte(0), z.lte(1_440))), null),
    notes: z._default(z.string().check(z.maxLength(2_000)), ""),
    standing: z._default(standing, noStanding),
  })
  .check(
    z.refine((booking) => booking.closeAtMs > booking.openAtMs, {
      path: ["closeAtMs"],
      error: "the close must be after the opening",
    }),
    z.refine((booking) => booking.closeAtMs - booking.openAtMs <= 48 * 3_600_000, {
      path: ["closeAtMs"],
      error: "open hours of more than two days: make one booking a day",
    }),
    z.refine(
      ({ breaks, openAtMs, closeAtMs }) =>
        breaks.every(
          ({ fromAtMs, toAtMs }) => fromAtMs >= openAtMs && toAtMs > fromAtMs && toAtMs <= closeAtMs,
        ),
      { path: ["breaks"], error: "a break must lie within the open hours and end after it begins" },
    ),
    z.refine(({ promisedAtMs, closeAtMs }) => promisedAtMs === null || promisedAtMs < closeAtMs, {
      path: ["promisedAtMs"],
      error: "it was promised for after the close",
    }),
  );
export type BookingInput = z.infer<typeof bookingInput>;

/** A booking as it is stored. */
export type Booking = BookingInput & { readonly bookingId: string };

/** What the bookings of one event have in common. */
export function eventOf({ eventId, bookingId }: Pick<Booking, "eventId" | "bookingId">): string {
  return eventId ?? bookingId;
}

/** What an older plan says of all this: nothing. */
export const nothingPlanned = {
  ...{ printSizes: [], printsPerSession: null, breaks: [], eventId: null, power: null },
  ...{ promisedAtMs: null, travelMin: null, notes: "" },
} satisfies Partial<BookingInput>;

/** Names that were found good: to ask again is slow, and a run sheet has thousands. */
const timeZones = new Set<string>();

export function isTimeZone(zone: string): boolean {
  if (timeZones.has(zone)) return true;
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    timeZones.add(zone);
    return true;
  } catch {
    return false;
  }
}
