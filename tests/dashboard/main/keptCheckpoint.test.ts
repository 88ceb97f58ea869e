import { describe, expect, it } from "vitest";
import { rebuildTimeline } from "../../../dashboard/booth/timeline.ts";
import { keptCheckpoint } from "../../../dashboard/keptCheckpoint.ts";
import type { Store } from "../../../dashboard/store/openStore.ts";
import { aReportedEvening } from "../../support/aReportedEvening.ts";
import { keepStory } from "../../support/aStoredEvening.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";
import { addAgent, aStore } from "../../support/aStore.ts";
import { keepReported } from "../../support/keepReported.ts";

const weekMs = 7 * 24 * hourMs;

/** A booth with two evenings a week apart. */
async function twoEvenings() {
  const { store, boothId } = await aStore();
  await addAgent(store, boothId);
  await keepReported(store, aReportedEvening(1, { openAtMs: sixAtMs - weekMs, bookingId: "before" }));
  await keepReported(store, aReportedEvening(2, { openAtMs: sixAtMs }));
  return { store, boothId };
}

/** As a booth is opened: from what was kept, if anything was; says from which instant items were read. */
async function opened(store: Store, boothId: string, build: string | null = "a build") {
  const kept = keptCheckpoint({ store, boothId, build });
  let readFromAtMs = Infinity;
  const checkpoint = await kept.read();
  const timeline = await rebuildTimeline(
    boothId,
    (fromAtMs) => {
      readFromAtMs = Math.min(readFromAtMs, fromAtMs);
      return store.boothItems.since(boothId, { factsAtMs: fromAtMs, readingsAtMs: fromAtMs });
    },
    checkpoint,
  );
  await kept.keepFrom(timeline);
  return { kept, timeline, readFromAtMs };
}

describe("the kept state of a booth", () => {
  it("spares a start all but the last hours, and gives the same state", async () => {
    const { store, boothId } = await twoEvenings();
    const first = await opened(store, boothId);
    const second = await opened(store, boothId);
    expect(first.readFromAtMs).toBe(-Infinity);
    expect(second.readFromAtMs).toBeGreaterThan(sixAtMs - 12 * hourMs);
    expect(second.timeline.state).toEqual(first.timeline.state);
  });

  it("is taken out by a fact that is older, and then everything is folded", async () => {
    const { store, boothId } = await twoEvenings();
    await opened(store, boothId);
    await keepStory(store, boothId, "late boot", sixAtMs - weekMs, [[100, "session", { sessionId: "late" }]]);
    const { timeline, readFromAtMs } = await opened(store, boothId);
    expect(readFromAtMs).toBe(-Infinity);
    expect(timeline.state.sessionIds.flat()).toContain("layouts late");
  });

  it("is written again without a fact that came in while it was being kept", async () => {
    const { store, boothId } = await twoEvenings();
    const { kept } = await opened(store, boothId);
    const [late] = aReportedEvening(3, { openAtMs: sixAtMs - weekMs }).facts;
    if (late === undefined) throw new Error("an evening without facts");
    kept.onStored([late]);
    expect(await kept.read()).toBeNull();
  });

  it("is another build's no longer, and a program that runs from source keeps none", async () => {
    const { store, boothId } = await twoEvenings();
    await opened(store, boothId);
    expect((await opened(store, boothId, "another build")).readFromAtMs).toBe(-Infinity);
    expect((await opened(store, boothId, null)).readFromAtMs).toBe(-Infinity);
    expect((await opened(store, boothId, "another build")).readFromAtMs).toBeGreaterThan(-Infinity);
  });
});
