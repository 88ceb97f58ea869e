import { bookingInput } from "@boothward/shared-types/booking";
import { boothBox } from "@boothward/shared-types/site";
import * as z from "zod/mini";

/** Answers of the HTTP side that Set-up, pairing and the run sheet read. */
const boothEntry = z.object({
  boothId: z.string(),
  name: z.string(),
  isTrailer: z.boolean(),
  kitSheets: z.number(),
  limitC: z.number(),
  box: z.nullable(boothBox),
  agent: z.nullable(
    z.object({
      agentId: z.string(),
      hostName: z.string(),
      pairedAtMs: z.number(),
      isLinked: z.boolean(),
    }),
  ),
});
export type BoothEntry = z.infer<typeof boothEntry>;

export const boothList = z.object({ booths: z.array(boothEntry) });
export const madeBooth = z.object({ boothId: z.string() });
export const pairingCode = z.object({ code: z.string(), expiresAtMs: z.number() });
export type PairingCode = z.infer<typeof pairingCode>;
export const signInLink = z.object({ path: z.string(), expiresAtMs: z.number() });

export const booking = z.intersection(bookingInput, z.object({ bookingId: z.string() }));
export type BookingEntry = z.infer<typeof booking>;
export const bookingList = z.object({ bookings: z.array(booking) });
