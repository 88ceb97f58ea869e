import { noStanding, nothingPlanned, type BookingInput } from "@boothward/shared-types";
import { hourMs, sixAtMs } from "./aStoredItem.ts";

/** A booking's form, open from 18:00 to 23:00 UTC; `over` changes what a test is about. */
export function aPlan(boothId: string, over: Partial<BookingInput> = {}): BookingInput {
  return {
    ...{ boothId, client: "Edda and Rowan", place: "Quarry Barn", eventKind: "wedding" },
    ...{ zone: "Europe/London", latitudeDeg: 51.5, longitudeDeg: 0 },
    ...{ openAtMs: sixAtMs, closeAtMs: sixAtMs + 5 * hourMs },
    ...{
      guests: 150,
      sheetsLoaded: 400,
      spareRolls: 1,
      attendant: null,
      standing: noStanding,
      ...nothingPlanned,
    },
    ...over,
  };
}
