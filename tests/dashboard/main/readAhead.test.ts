import { describe, expect, it } from "vitest";
import { openKnownEvenings } from "../../../dashboard/knownEvenings.ts";
import { openReports } from "../../../dashboard/openReports.ts";
import { readAhead } from "../../../dashboard/readAhead.ts";
import { listeningLog } from "../../support/aDashboard.ts";
import { addAgent, aStore } from "../../support/aStore.ts";
import { keepEvening } from "../../support/aStoredEvening.ts";
import { countingReads } from "../../support/countingReads.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { until } from "../../support/until.ts";

const weekMs = 7 * 24 * hourMs;

/** A business with so many evenings behind it, and what is read ahead of it at a start. */
async function aStart(evenings: number) {
  const { store, boothId } = await aStore();
  await addAgent(store, boothId);
  for (let week = evenings; week > 0; week -= 1)
    await keepEvening(store, boothId, { bookingId: `week ${week}`, openAtMs: sixAtMs - week * weekMs });
  let readFirst: () => void = () => undefined;
  const firstRead = new Promise<void>((resolve) => (readFirst = resolve));
  const { store: counting, reads } = countingReads(store, readFirst);
  const { log, lines } = listeningLog();
  const { clock } = handTime(sixAtMs);
  const known = openKnownEvenings({ store: counting, clock, log });
  const ahead = readAhead({
    ...{ store: counting, evenings: known, reports: openReports({ store: counting, clock, log }), log },
    ...{ rollMoves: { of: () => Promise.resolve([]), onStored: () => undefined, close: () => undefined } },
    ...{ plannedUse: () => Promise.resolve([]), atMs: sixAtMs },
  });
  return { known, ahead, lines, firstRead, reads };
}

describe("what is read ahead at a start", () => {
  it("is every evening before an event that is over: its plan reads none of them again", async () => {
    const { known, ahead, reads } = await aStart(3);
    await until(() => reads() === 3, "three evenings to be read");
    const before = await known.before("wedding", false, sixAtMs - weekMs);
    expect(before.map(({ openAtMs }) => openAtMs)).toEqual([sixAtMs - 3 * weekMs, sixAtMs - 2 * weekMs]);
    expect(reads()).toBe(3);
    await ahead.close();
  });

  it("is read no further once the dashboard is being closed, and that is no error", async () => {
    const { known, ahead, reads, lines, firstRead } = await aStart(6);
    await firstRead;
    const closing = ahead.close();
    await known.close();
    await closing;
    expect(reads()).toBeLessThan(6);
    expect(lines).toEqual([]);
  });
});
