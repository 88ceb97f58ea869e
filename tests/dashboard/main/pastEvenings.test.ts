import { pino } from "pino";
import { describe, expect, it } from "vitest";
import { openKnownEvenings } from "../../../dashboard/knownEvenings.ts";
import { readPastEvenings, type EveningsRead } from "../../../dashboard/pastEvenings.ts";
import type { Store } from "../../../dashboard/store/openStore.ts";
import { addAgent, aStore } from "../../support/aStore.ts";
import { everyTenMinutes, keepEvening, keepStory } from "../../support/aStoredEvening.ts";
import { countingReads } from "../../support/countingReads.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { until } from "../../support/until.ts";

const weekMs = 7 * 24 * hourMs;
const quiet = pino({ level: "silent" });
const noWait = () => Promise.resolve();

async function aBusiness() {
  const { store, boothId } = await aStore();
  await addAgent(store, boothId);
  return { store, boothId };
}

const weddings = (store: Store, over: { isInvented?: boolean; beforeAtMs?: number } = {}) =>
  readPastEvenings(
    store,
    { eventKind: "wedding", isInvented: false, beforeAtMs: sixAtMs, ...over },
    new Map(),
    noWait,
  );

describe("earlier evenings", () => {
  it("have their sessions and sheets, each in its quarter-hour from the opening on", async () => {
    const { store, boothId } = await aBusiness();
    const openAtMs = sixAtMs - weekMs;
    await keepEvening(store, boothId, { bookingId: "last", openAtMs });
    const [evening, ...others] = await weddings(store);
    expect(others).toEqual([]);
    expect(evening).toMatchObject({
      ...{ eventKind: "wedding", openAtMs, closeAtMs: openAtMs + 4 * hourMs, guests: 120 },
      ...{ sessions: 24, sheets: 48 },
    });
    // Groups at 3, 13, 23, 33, 43, 53 minutes past: two, one, two and one of them in the quarters of an hour.
    expect(evening?.sheetsPer15Min).toEqual([1, 2, 3, 4].flatMap(() => [4, 2, 4, 2]));
  });

  it("are those of the kind, of every booth, oldest first, whatever the case it was typed in", async () => {
    const { store, boothId } = await aBusiness();
    const made = { name: "Sorrel", isTrailer: true, kitSheets: 300, limitC: 40, box: null };
    const other = { boothId: "sorrel", ...made };
    await store.booths.add(other, 0);
    await keepEvening(store, boothId, { bookingId: "a", openAtMs: sixAtMs - weekMs, eventKind: "Wedding" });
    await keepEvening(store, "sorrel", { bookingId: "b", openAtMs: sixAtMs - 2 * weekMs });
    await keepEvening(store, boothId, { bookingId: "c", openAtMs: sixAtMs - 3 * weekMs, eventKind: "gala" });
    const found = await weddings(store);
    expect(found.map(({ openAtMs }) => openAtMs)).toEqual([sixAtMs - 2 * weekMs, sixAtMs - weekMs]);
    expect(found.map(({ eventKind }) => eventKind)).toEqual(["wedding", "wedding"]);
  });

  it("are not those that go on, are to come, were too short, or had nobody", async () => {
    const { store, boothId } = await aBusiness();
    await keepEvening(store, boothId, { bookingId: "now", openAtMs: sixAtMs - hourMs });
    await keepEvening(store, boothId, { bookingId: "short", openAtMs: sixAtMs - weekMs, openHours: 0.5 });
    const few = everyTenMinutes.slice(0, 7);
    await keepEvening(store, boothId, {
      bookingId: "few",
      openAtMs: sixAtMs - 2 * weekMs,
      sessionsAtMin: few,
    });
    expect(await weddings(store)).toEqual([]);
  });

  it("of an invented day teach a real booth nothing, and an invented one all there is", async () => {
    const { store, boothId } = await aBusiness();
    const scenario = "An invented day";
    await keepEvening(store, boothId, { bookingId: "demo", openAtMs: sixAtMs - 2 * weekMs, scenario });
    await keepEvening(store, boothId, { bookingId: "real", openAtMs: sixAtMs - weekMs });
    expect((await weddings(store)).map(({ openAtMs }) => openAtMs)).toEqual([sixAtMs - weekMs]);
    expect(await weddings(store, { isInvented: true })).toHaveLength(2);
  });

  it("run to their close as it was extended, and are over no sooner", async () => {
    const { store, boothId } = await aBusiness();
    const openAtMs = sixAtMs - weekMs;
    const closeAtMs = openAtMs + 5 * hourMs;
    const more = [[200, "extended", { bookingId: "last", closeAtMs }] as const];
    await keepEvening(store, boothId, {
      ...{ bookingId: "last", openAtMs, more },
      sessionsAtMin: [...everyTenMinutes, 270],
    });
    expect(await weddings(store)).toMatchObject([{ closeAtMs, sessions: 25 }]);
    expect(await weddings(store, { beforeAtMs: closeAtMs - minuteMs })).toEqual([]);
  });

  it("are the latest thirty at most", async () => {
    const { store, boothId } = await aBusiness();
    for (let week = 1; week <= 33; week++)
      await keepEvening(store, boothId, { bookingId: `week ${week}`, openAtMs: sixAtMs - week * weekMs });
    const found = await weddings(store);
    expect(found).toHaveLength(30);
    expect(found[0]?.openAtMs).toBe(sixAtMs - 30 * weekMs);
    expect(found.at(-1)?.openAtMs).toBe(sixAtMs - weekMs);
  });

  it("are read again only when their plan or their facts changed", async () => {
    const { store, boothId } = await aBusiness();
    for (const week of [1, 2])
      await keepEvening(store, boothId, { bookingId: `week ${week}`, openAtMs: sixAtMs - week * weekMs });
    const { store: counting, reads } = countingReads(store);
    const read: EveningsRead = new Map();
    const wanted = { eventKind: "wedding", isInvented: false, beforeAtMs: sixAtMs };
    const again = () => readPastEvenings(counting, wanted, read, noWait);
    await again();
    expect(reads()).toBe(2);
    await again();
    expect(reads()).toBe(2);
    const openAtMs = sixAtMs - weekMs;
    await keepStory(store, boothId, "late boot", openAtMs, [
      [100, "session", { sessionId: "late" }],
      [100.5, "print", { printId: "late", pitches: 6 }],
    ]);
    expect((await again()).at(-1)).toMatchObject({ sessions: 25, sheets: 54 });
    expect(reads()).toBe(3);
  });
});

describe("the evenings at hand", () => {
  it("are none at first, then those that were read, and the same list until something changes", async () => {
    const { store, boothId } = await aBusiness();
    await keepEvening(store, boothId, { bookingId: "last", openAtMs: sixAtMs - weekMs });
    const time = handTime(sixAtMs);
    const known = openKnownEvenings({ store, clock: time.clock, log: quiet });
    expect(known.of("wedding", false)).toEqual([]);
    await known.settled();
    const first = known.of("wedding", false);
    expect(first).toHaveLength(1);
    expect(known.of("wedding", false)).toBe(first);

    await keepEvening(store, boothId, { bookingId: "older", openAtMs: sixAtMs - 2 * weekMs });
    known.onChange();
    await until(() => known.of("wedding", false).length === 2, "the older evening to be known");
    await known.close();
  });

  it("take in an evening some minutes after its end, without a word from anybody", async () => {
    const { store, boothId } = await aBusiness();
    const time = handTime(sixAtMs);
    await keepEvening(store, boothId, { bookingId: "now", openAtMs: sixAtMs - 3 * hourMs });
    const known = openKnownEvenings({ store, clock: time.clock, log: quiet });
    known.of("wedding", false);
    await known.settled();
    expect(known.of("wedding", false)).toEqual([]);
    time.pass(hourMs + minuteMs);
    await until(() => known.of("wedding", false).length === 1, "the evening to be known");
    await known.close();
  });

  it("are read no further once the dashboard is being closed", async () => {
    const { store, boothId } = await aBusiness();
    for (const week of [1, 2, 3])
      await keepEvening(store, boothId, { bookingId: `week ${week}`, openAtMs: sixAtMs - week * weekMs });
    const known = openKnownEvenings({ store, clock: handTime(sixAtMs).clock, log: quiet });
    known.of("wedding", false);
    await known.close();
    expect(known.of("wedding", false)).toEqual([]);
  });
});
