import { knownItem } from "@boothward/shared-types";
import type { Store } from "../../dashboard/store/openStore.ts";
import { aBooking } from "./aBooking.ts";
import { aStory, hourMs, sixAtMs, type StoryLine } from "./aStoredItem.ts";

/** What a test may say of an evening that is over. */
export type EveningParts = {
  readonly bookingId: string;
  readonly openAtMs: number;
  readonly eventKind?: string;
  readonly openHours?: number;
  readonly guests?: number | null;
  readonly sheetsLoaded?: number | null;
  /** Minutes after the opening at which groups finished; each takes two sheets. */
  readonly sessionsAtMin?: readonly number[];
  readonly scenario?: string | null;
  /** Lines beside the sessions and their prints, in minutes after the opening. */
  readonly more?: readonly StoryLine[];
};

/** A group every ten minutes for four hours, none on a quarter of an hour. */
export const everyTenMinutes: readonly number[] = Array.from({ length: 24 }, (_, at) => 3 + at * 10);

/** Keeps an evening with its booking and its facts, as one boot of an agent would have sent them. */
export async function keepEvening(store: Store, boothId: string, parts: EveningParts): Promise<void> {
  const { bookingId, openAtMs, eventKind = "wedding", openHours = 4, guests = 120 } = parts;
  const { sheetsLoaded = 400, sessionsAtMin = everyTenMinutes, scenario = null, more = [] } = parts;
  const closeAtMs = openAtMs + openHours * hourMs;
  const plan = { bookingId, boothId, eventKind, openAtMs, closeAtMs, guests, sheetsLoaded };
  await store.bookings.save(aBooking(plan));
  const lines: StoryLine[] = [
    [-60, "agentStarted", { scenario }],
    ...sessionsAtMin.flatMap((minute): StoryLine[] => [
      [minute, "session", { sessionId: `${bookingId} ${minute}` }],
      [minute + 0.5, "print", { printId: `${bookingId} ${minute}`, pitches: 2, copies: 2 }],
    ]),
    ...more,
  ];
  await keepStory(store, boothId, `boot of ${bookingId}`, openAtMs, lines);
}

/** Keeps the lines of a story that begins at an instant. */
export async function keepStory(
  store: Store,
  boothId: string,
  bootId: string,
  fromAtMs: number,
  lines: readonly StoryLine[],
): Promise<void> {
  const items = aStory(lines.toSorted((a, b) => a[0] - b[0])).map((item) => {
    const atMs = Math.round(fromAtMs + (item.atMs - sixAtMs));
    const moved = knownItem.parse({ ...item, atMs });
    return { item: moved, atMs, read: { as: "known" as const, item: moved } };
  });
  const origin = { agentId: "agent-1", boothId, bootId, afterSeq: 0, receivedAtMs: fromAtMs };
  await store.storeBatches([{ ...origin, items }]);
}
