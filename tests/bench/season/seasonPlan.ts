import { noStanding, nothingPlanned, type Booking } from "@boothward/shared-types";
import { between, seededDice } from "../../../seeds/dice.ts";

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** Events that are still to come: the run sheet of the next weeks. */
const eventsAhead = 20;

const kinds = ["wedding", "party", "corporate", "wedding", "public", "gala"];

/**
 * The run sheet of a season: each event with every booth, the latest of them going on now, the others spread over
 * the year before, and some weeks to come. Oldest first.
 */
export function seasonPlan(boothIds: readonly string[], events: number, nowMs: number): Booking[] {
  const everyMs = Math.floor(365 / Math.max(1, events)) * dayMs || dayMs;
  const going = nowMs - 2 * hourMs;
  return Array.from({ length: events + eventsAhead }, (_, at) => {
    const dice = seededDice(at, "season plan");
    const openAtMs = going + (at - events + 1) * everyMs;
    const hours = at === events - 1 ? 5 : 3 + Math.floor(between(dice, 0, 4));
    return boothIds.map((boothId): Booking => ({
      ...{ bookingId: `event ${at} ${boothId}`, boothId },
      ...{ client: `Client ${at}`, place: `Barn ${at % 37}`, eventKind: kinds[at % kinds.length] ?? "party" },
      ...{ zone: "Europe/Berlin", latitudeDeg: 52.5, longitudeDeg: 13.4 },
      ...{ openAtMs, closeAtMs: openAtMs + hours * hourMs },
      ...{ guests: 60 + Math.floor(dice() * 160), sheetsLoaded: 400, spareRolls: 1, attendant: null },
      standing: noStanding,
      ...{ ...nothingPlanned, eventId: `event ${at}` },
    }));
  }).flat();
}
