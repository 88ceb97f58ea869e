import { knownItem } from "@boothward/shared-types";
import type { BatchToStore } from "../../dashboard/store/storeBatches.ts";
import type { Store } from "../../dashboard/store/openStore.ts";
import { aStoredItem } from "./aStoredItem.ts";
import type { ReportedEvening } from "./aReportedEvening.ts";

/** Keeps an invented evening, its booking too, as an agent would have sent it, with a reading each minute. */
export async function keepReported(store: Store, evening: ReportedEvening): Promise<void> {
  await store.bookings.save(evening.booking);
  await store.storeBatches(batchesOf(evening, true));
}

/** Keeps many of them in one transaction, without readings. */
export async function keepMany(store: Store, evenings: readonly ReportedEvening[]): Promise<void> {
  for (const { booking } of evenings) await store.bookings.save(booking);
  await store.storeBatches(evenings.flatMap((evening) => batchesOf(evening, false)));
}

function batchesOf({ booking, facts, heard }: ReportedEvening, withHeard: boolean): BatchToStore[] {
  const boots = new Map<string, BatchToStore["items"][number][]>();
  for (const fact of facts.toSorted((a, b) => a.seq - b.seq)) {
    const item = knownItem.parse(fact);
    const { bootId, atMs } = fact;
    boots.set(bootId, [...(boots.get(bootId) ?? []), { item, atMs, read: { as: "known", item } }]);
  }
  if (withHeard)
    boots.set(
      `heard at ${booking.bookingId}`,
      heard.map((atMs, at) => {
        const item = knownItem.parse({ ...aStoredItem("inside", { insideC: 25 }), seq: at + 1, atMs });
        return { item, atMs, read: { as: "known", item } };
      }),
    );
  const origin = {
    agentId: "agent-1",
    boothId: booking.boothId,
    afterSeq: 0,
    receivedAtMs: booking.openAtMs,
  };
  return [...boots].map(([bootId, items]) => ({ ...origin, bootId, items }));
}
