import { replayView, type ReplayAsk, type ReplayView } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { readPastEvenings } from "../../../dashboard/pastEvenings.ts";
import { replayBooking } from "../../../dashboard/replayBooking.ts";
import { replaySummaryOf } from "../../../dashboard/replaySummary.ts";
import type { Store } from "../../../dashboard/store/openStore.ts";
import { addAgent, aStore } from "../../support/aStore.ts";
import { everyTenMinutes, keepEvening } from "../../support/aStoredEvening.ts";
import { hourMs, minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const weekMs = 7 * 24 * hourMs;
const openAtMs = sixAtMs - weekMs;
const at = (minute: number) => openAtMs + minute * minuteMs;

async function aBusiness() {
  const { store, boothId } = await aStore();
  await addAgent(store, boothId);
  return { store, boothId };
}

async function replayed(store: Store, bookingId = "last", nowMs = sixAtMs) {
  const evenings = {
    before: (eventKind: string, isInvented: boolean, beforeAtMs: number) =>
      readPastEvenings(store, { eventKind, isInvented, beforeAtMs }, new Map(), () => Promise.resolve()),
  };
  return replayBooking({ store, evenings }, bookingId, nowMs);
}

async function viewOf(store: Store): Promise<ReplayView> {
  return replayView.parse(await replayed(store));
}

describe("an evening played again", () => {
  it("is asked each quarter of an hour, beside what was really used", async () => {
    const { store, boothId } = await aBusiness();
    await keepEvening(store, boothId, { bookingId: "last", openAtMs });
    const view = await viewOf(store);
    expect(view).toMatchObject({
      ...{ bookingId: "last", boothId, boothName: "Juniper", eventKind: "wedding", openAtMs },
      ...{ closeAtMs: at(240), sessions: 24, sheetsUsed: 48, pastEvenings: 0, rollChangesAtMs: [] },
    });
    expect(view.asks.map((ask) => ask.atMs)).toEqual(
      Array.from({ length: 16 }, (_, quarter) => at(quarter * 15)),
    );
    // Two sheets every ten minutes from the third on; the last of them at 233 minutes.
    expect(view.asks.map((ask) => ask.usedToEnd).slice(0, 5)).toEqual([48, 44, 42, 38, 36]);
    expect(view.asks.at(-1)).toMatchObject({ atMs: at(225), usedToEnd: 2 });
    expect(view.asks[0]?.sheetsLeft).toBeGreaterThanOrEqual(398);
    expect(view.used[0]).toEqual({ atMs: openAtMs, sheetsUsed: 0 });
    expect(view.used.at(-1)).toEqual({ atMs: at(240), sheetsUsed: 48 });
    for (const { demandToEnd, lastsChance } of view.asks) {
      expect(demandToEnd?.p10).toBeLessThanOrEqual(demandToEnd?.p50 ?? -1);
      expect(demandToEnd?.p50).toBeLessThanOrEqual(demandToEnd?.p90 ?? -1);
      expect(lastsChance).toBeGreaterThan(0.35);
    }
    expect(view.summary).toMatchObject({ asks: 16, verdict: "lasted", warnedAtMs: null, rollEnd: null });
  });

  it("knows at each ask only what had happened by then", async () => {
    const { store, boothId } = await aBusiness();
    await keepEvening(store, boothId, { bookingId: "last", openAtMs });
    const whole = await viewOf(store);
    const { store: other, boothId: sameBooth } = await aBusiness();
    const half = everyTenMinutes.filter((minute) => minute <= 120);
    await keepEvening(other, sameBooth, { bookingId: "last", openAtMs, sessionsAtMin: half });
    const cut = await viewOf(other);
    const forecast = ({ atMs, sheetsLeft, demandToEnd, emptyAtMs, lastsChance }: ReplayAsk) => [
      ...[atMs, sheetsLeft, demandToEnd, emptyAtMs, lastsChance],
    ];
    // By 120 minutes the two evenings are the same: so is what would have been said.
    expect(cut.asks.slice(0, 9).map(forecast)).toEqual(whole.asks.slice(0, 9).map(forecast));
    expect(cut.asks[12]?.demandToEnd).not.toEqual(whole.asks[12]?.demandToEnd);
  });

  it("finds when a roll that would not have lasted was changed, and how long before it would have warned", async () => {
    const { store, boothId } = await aBusiness();
    const more = [[200, "rollFitted", { sheets: 400 }] as const];
    await keepEvening(store, boothId, { bookingId: "last", openAtMs, sheetsLoaded: 44, more });
    const { summary, rollChangesAtMs, asks } = await viewOf(store);
    expect(rollChangesAtMs).toEqual([at(200)]);
    expect(summary.rollEnd).toEqual({ atMs: at(200), how: "changed" });
    expect(summary.verdict).toBe("warned");
    expect(summary.aheadMs).toBeGreaterThanOrEqual(15 * minuteMs);
    // The loaded roll of 44 less what was used up to then.
    expect(asks[8]?.sheetsLeft).toBe(44 - 24);
  });

  it("says that a roll was empty when the printer said so", async () => {
    const { store, boothId } = await aBusiness();
    const more: StoryLine[] = [
      [100.6, "printerState", { state: "stopped", reasons: ["media-empty-error"] }],
      [104, "rollFitted", { sheets: 400 }],
      [104.2, "printerState"],
    ];
    await keepEvening(store, boothId, { bookingId: "last", openAtMs, sheetsLoaded: 30, more });
    const { summary } = await viewOf(store);
    expect(summary.rollEnd).toEqual({ atMs: at(100.6), how: "empty" });
  });

  it("takes no roll for ended that was changed though it would have lasted", async () => {
    const { store, boothId } = await aBusiness();
    const more = [[120, "rollFitted", { sheets: 400 }] as const];
    await keepEvening(store, boothId, { bookingId: "last", openAtMs, more });
    expect((await viewOf(store)).summary).toMatchObject({ rollEnd: null, verdict: "lasted" });
  });

  it("learns from the evenings that were over before it, and from none after", async () => {
    const { store, boothId } = await aBusiness();
    for (const week of [0, 1, 2])
      await keepEvening(store, boothId, {
        bookingId: `before ${week}`,
        openAtMs: openAtMs - (week + 1) * weekMs,
      });
    await keepEvening(store, boothId, { bookingId: "last", openAtMs });
    const later = { bookingId: "later", openAtMs: openAtMs + 24 * hourMs };
    await keepEvening(store, boothId, later);
    const view = await viewOf(store);
    expect(view.pastEvenings).toBe(3);
    // Three evenings of 48 sheets each: the band of the first ask is about that.
    const first = view.asks[0]?.demandToEnd;
    expect(first?.p10).toBeLessThan(48);
    expect(first?.p90).toBeGreaterThan(48);
    expect((first?.p90 ?? 0) - (first?.p10 ?? 0)).toBeLessThan(120);
  });

  it("is none while the evening goes on, and none of no booking", async () => {
    const { store, boothId } = await aBusiness();
    await keepEvening(store, boothId, { bookingId: "last", openAtMs });
    expect(await replayed(store, "last", at(239))).toBe("notOver");
    expect(await replayed(store, "nowhere")).toBe("noSuchBooking");
  });
});

describe("what a replay is worth", () => {
  const ask = (minute: number, lastsChance: number | null, usedToEnd = 50): ReplayAsk => ({
    ...{ atMs: at(minute), sheetsLeft: 60, lastsChance, usedToEnd },
    demandToEnd: { p10: 40, p50: 55, p90: 70 },
    emptyAtMs: { p10: null, p50: null, p90: null },
  });
  const end = (minute: number) => ({ atMs: at(minute), how: "empty" as const });

  it.each([
    ["warned", [ask(0, 0.9), ask(15, 0.3)], end(30)],
    ["warnedLate", [ask(0, 0.9), ask(15, 0.3)], end(29)],
    ["missed", [ask(0, 0.9), ask(15, 0.36)], end(30)],
    ["missed", [ask(0, 0.9), ask(45, 0.1)], end(30)],
    ["lasted", [ask(0, 0.9), ask(15, 0.36)], null],
    ["warnedInVain", [ask(0, 0.9), ask(15, 0.2)], null],
    ["unknown", [ask(0, null)], null],
    ["unknown", [], null],
  ] as const)("is %s", (verdict, asks, rollEnd) => {
    expect(replaySummaryOf(asks, rollEnd).verdict).toBe(verdict);
  });

  it("is the share of the bands that held the truth, their edges with them", () => {
    const asks = [ask(0, 0.9, 40), ask(15, 0.9, 70), ask(30, 0.9, 71), ask(45, 0.9, 39)];
    expect(replaySummaryOf(asks, null)).toMatchObject({ asks: 4, heldShare: 0.5 });
    expect(replaySummaryOf([], null)).toMatchObject({ asks: 0, heldShare: null });
  });

  it("counts from the first warning to the end of the roll", () => {
    const asks = [ask(0, 0.9), ask(15, 0.3), ask(30, 0.2)];
    expect(replaySummaryOf(asks, end(55))).toMatchObject({ warnedAtMs: at(15), aheadMs: 40 * minuteMs });
  });
});
