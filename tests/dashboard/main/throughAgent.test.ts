import { describe, expect, it } from "vitest";
import * as z from "zod";
import { openAgentHouse } from "../../bench/alerts/agentHouse.ts";
import { minuteMs } from "../../bench/alerts/evening.ts";
import { happeningOf } from "../../bench/alerts/happening.ts";
import { outcomeOf } from "../../bench/alerts/outcome.ts";
import { playOut, type Played } from "../../bench/alerts/playEvening.ts";
import { arrived, playThroughAgent, scenarioLines } from "../../bench/alerts/playThroughAgent.ts";
import { shortEvening } from "../../bench/alerts/shortEvening.ts";

/** Coarser than the bench, so that it is quick; a dashboard looks ahead as often. */
const pace = { tickMs: 20_000, lookEveryMs: 20_000 };

/** Each matter as it was told, without its minute. */
const told = ({ notices }: Played) =>
  notices
    .map(({ matter, why, toRole, severity }) => `${matter} ${why} ${severity} to the ${toRole}`)
    .toSorted();

describe("an evening played through a whole agent", () => {
  it("tells people what the rules alone would have told, and nothing of it is missed or false", async () => {
    const out = await playOut(shortEvening(), pace);
    const played = await playThroughAgent(out, pace.tickMs);
    expect(told(played)).toEqual(told(out.played));

    const outcome = outcomeOf(played);
    const matters = outcome.told.map(({ truth }) => truth.matter).toSorted();
    expect(matters).toEqual([
      ...["agentSilent", "cameraGone", "onBattery", "printerStopped", "printerStopped", "tooHot"],
    ]);
    expect(outcome.missed).toEqual([]);
    expect([outcome.falseAlarms, outcome.falseForecasts]).toEqual([[], []]);
  }, 120_000);
});

const stored = z.object({ kind: z.string(), items: z.number() });

describe("a night without internet", () => {
  it("loses nothing that the booth saw, and calls nobody late", async () => {
    const cutOff = { fromMin: 21, toMin: 128 };
    const evening = { ...shortEvening(), silences: [cutOff] };
    const { items } = happeningOf(evening.booth, evening);
    const lines = scenarioLines(evening, items);
    const house = await openAgentHouse(evening, lines);
    try {
      for (let atMin = 0; atMin < 135; atMin += 1 / 3) {
        house.pass(pace.tickMs);
        await arrived(house, evening, lines);
        await house.tick();
      }
      const heardMin = house.heard.map(({ atMs }) => (atMs - evening.startAtMs) / minuteMs);
      const seen = items.filter(({ atMs }) => atMs <= house.nowMs() - evening.startAtMs);
      const kinds = house.rows(
        `select kind, count(*) items from (select kind from fact union all select kind from reading) group by kind`,
        stored,
      );
      const counted = Object.fromEntries(kinds.map(({ kind, items: count }) => [kind, count]));
      for (const kind of ["print", "session", "printerState", "inside", "power", "peer"])
        expect([kind, counted[kind]]).toEqual([kind, seen.filter(({ item }) => item.kind === kind).length]);
      // Jam, battery and camera began and ended while nobody could know: what was told is the silence and what stands.
      expect(heardMin.filter((min) => min > 30 && min < 126)).not.toEqual([]);
      const told = house.rows(
        `select distinct a."matter" from notice n join alert a on a."alertId" = n."alertId"`,
        z.object({ matter: z.string() }),
      );
      const matters = told.map(({ matter }) => matter);
      expect(matters).toContain("agentSilent");
      for (const over of ["onBattery", "cameraGone"]) expect(matters).not.toContain(over);
    } finally {
      await house.close();
    }
  }, 120_000);
});

describe("a notice on its way from an agent's source to a person", () => {
  it("comes in within two seconds of the moment at which its rule has held, at one tick a second", async () => {
    const evening = { ...shortEvening(), silences: [] };
    const jamAtMs = 21 * minuteMs + 400;
    const jam = {
      class: "fact",
      kind: "printerState",
      queue: "prints",
      state: "stopped",
      message: null,
    } as const;
    const lines = [
      { scenario: "A jam", lengthMs: 60 * minuteMs },
      { atMs: jamAtMs, item: { ...jam, reasons: ["media-jam-error"] } },
    ];
    const house = await openAgentHouse(evening, lines);
    const passTo = async (ms: number, stepMs: number) => {
      while (house.nowMs() - evening.startAtMs < ms) {
        house.pass(stepMs);
        await arrived(house, evening, lines);
        await house.tick();
      }
    };
    const ofJam = () =>
      house.rows(
        `select n."noticeId" from notice n join alert a on a."alertId" = n."alertId" where a."matter" = 'printerStopped'`,
        z.object({ noticeId: z.string() }),
      );
    try {
      await passTo(21 * minuteMs, pace.tickMs);
      // The printer's stop is held for five seconds.
      await passTo(jamAtMs + 5_000, 1_000);
      await passTo(jamAtMs + 7_000, 1_000);
      const [notice] = ofJam();
      const heard = house.heard.find(({ noticeId }) => noticeId === notice?.noticeId);
      const afterMs = (heard?.atMs ?? Infinity) - evening.startAtMs - jamAtMs - 5_000;
      expect(afterMs).toBeGreaterThanOrEqual(0);
      expect(afterMs).toBeLessThanOrEqual(2_000);
    } finally {
      await house.close();
    }
  }, 60_000);
});
