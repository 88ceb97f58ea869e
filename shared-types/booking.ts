import * as z from "zod/mini";
import { noStanding, standing } from "./site.ts";

/**
 * A booking in its first shape: one booth at one client's event with its open hours. The form, the
 * seeds and the store use the same words.
 */

/** An instant within the years a tablet's clock may sensibly claim. */
const instantMs = z.number().check(z.gte(Date.UTC(2000, 0, 1)), z.lte(Date.UTC(2100, 0, 1)));

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
  );
export type BookingInput = z.infer<typeof bookingInput>;

/** A booking as it is stored. */
export type Booking = BookingInput & { readonly bookingId: string };

export function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
