import { nothingPlanned, type BookingInput } from "@boothward/shared-types";
import * as z from "zod";
import { anyAnswer, type DashboardApi } from "./dashboardApi.ts";
import type { Day, DayBooth } from "./day.ts";
import type { Venue } from "./zone.ts";

/** Who owns the invented business. */
export type Owner = { readonly name: string; readonly password: string };

/** A booth of the day as the dashboard knows it, with the code that pairs its agent. */
export type MadeBooth = {
  readonly booth: DayBooth;
  readonly boothId: string;
  readonly bookingId: string;
  readonly pairingCode: string;
};

const madeBooth = z.object({ boothId: z.string() });
const madeBooking = z.object({ bookingId: z.string() });
const pairingCode = z.object({ code: z.string() });
const signInLink = z.object({ path: z.string().startsWith("/") });

/** Open hours begin and end on the quarter of an hour, as people agree on them. */
const quarterMs = 15 * 60_000;

/** Makes the owner's account with the code that the dashboard printed; the api is signed in from then on. */
export async function makeOwner(api: DashboardApi, code: string, owner: Owner): Promise<void> {
  await api.post("/api/first-run", { code, ...owner }, anyAnswer);
}

/** Adds the day's booths, books each of them, and makes a pairing code for each. */
export async function makeBooths(
  api: DashboardApi,
  day: Day,
  venue: Venue,
  nowMs: number,
): Promise<MadeBooth[]> {
  const made: MadeBooth[] = [];
  for (const booth of day.booths) {
    const { name, isTrailer, kitSheets, limitC, box } = booth;
    const { boothId } = await api.post("/api/booths", { name, isTrailer, kitSheets, limitC, box }, madeBooth);
    const plan = bookingFor(boothId, booth, venue, nowMs);
    const { bookingId } = await api.post("/api/bookings", plan, madeBooking);
    const { code } = await api.post(`/api/booths/${boothId}/pairing-codes`, {}, pairingCode);
    made.push({ booth, boothId, bookingId, pairingCode: code });
  }
  return made;
}

/** Path of a link that signs one phone in, once. */
export async function makeSignInLink(api: DashboardApi): Promise<string> {
  const { path } = await api.post("/api/sign-in-links", {}, signInLink);
  return path;
}

/** The booking as the form would send it; open hours are widened to whole quarters. */
function bookingFor(boothId: string, { booking }: DayBooth, venue: Venue, nowMs: number): BookingInput {
  const { openMin, closeMin, client, place, eventKind, guests, sheetsLoaded, spareRolls } = booking;
  const { attendant, standing } = booking;
  return {
    boothId,
    client,
    place,
    eventKind,
    ...venue,
    openAtMs: Math.floor((nowMs + openMin * 60_000) / quarterMs) * quarterMs,
    closeAtMs: Math.ceil((nowMs + closeMin * 60_000) / quarterMs) * quarterMs,
    guests,
    sheetsLoaded,
    spareRolls,
    attendant,
    standing,
    ...nothingPlanned,
  };
}
