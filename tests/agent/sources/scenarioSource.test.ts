import { describe, expect, it } from "vitest";
import type { SourceItem } from "../../../agent/readings/source.ts";
import type { Scenario } from "../../../agent/sources/scenarioFile.ts";
import { scenarioClock, scenarioSource } from "../../../agent/sources/scenarioSource.ts";
import { handTime } from "../../support/handTime.ts";

const minuteMs = 60_000;
const startWallMs = Date.UTC(2026, 5, 20, 18);

/** A sheet count each minute, and a hold of the link in minute 5 that lasts two. */
const scenario: Scenario = {
  name: "A windy evening",
  lengthMs: 10 * minuteMs,
  entries: [
    ...Array.from({ length: 5 }, (_, i) => counted(i)),
    { line: 7, atMs: 4 * minuteMs, holdMs: 2 * minuteMs },
    ...Array.from({ length: 5 }, (_, i) => counted(i + 5)),
  ],
};

function counted(minute: number) {
  const item = { class: "fact", kind: "correction", sheetsLeft: 400 - minute, by: "Ada" } as const;
  return { line: minute < 5 ? minute + 2 : minute + 3, atMs: minute * minuteMs, item, source: "person" };
}

/** Plays the scenario as if it had begun so many minutes before now. */
function play(
  minutesAgo: number,
  options: { mark?: string; wallErrorMs?: number; keeps?: () => boolean } = {},
) {
  const time = handTime(startWallMs);
  const startedAtMs = startWallMs - minutesAgo * minuteMs;
  const { wallErrorMs = 0, mark = null, keeps = () => true } = options;
  const clock = scenarioClock(time.clock, startedAtMs, wallErrorMs);
  const told: SourceItem[] = [];
  const holds: number[] = [];
  const source = scenarioSource({
    scenario,
    startedAtMs,
    wallErrorMs,
    clock,
    mark,
    after: time.after,
    holdLink: (ms) => holds.push(ms),
  });
  void source.start((answer) => {
    const isKept = keeps();
    if (isKept && "items" in answer) told.push(...answer.items);
    return Promise.resolve(isKept);
  });
  const settle = async (passMs = 0) => {
    for (let turn = 0; turn < 50; turn++) await Promise.resolve();
    time.pass(passMs);
    for (let turn = 0; turn < 50; turn++) await Promise.resolve();
  };
  return { source, told, holds, settle, clock, startedAtMs };
}

const minutes = (told: readonly SourceItem[]) => told.map(({ clock }) => (clock?.monoMs ?? NaN) / minuteMs);

describe("scenarioSource", () => {
  it("hands on the past at once with its own past clock, and the rest when its time comes", async () => {
    const { told, settle, startedAtMs } = play(3.5);
    await settle();
    expect(minutes(told)).toEqual([0, 1, 2, 3]);
    expect(told[2]?.clock).toEqual({ wallMs: startedAtMs + 2 * minuteMs, monoMs: 2 * minuteMs });
    await settle(minuteMs / 2 - 1);
    expect(told).toHaveLength(4);
    await settle(1);
    expect(minutes(told)).toEqual([0, 1, 2, 3, 4]);
    await settle(minuteMs);
    expect(minutes(told)).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it("names the source of an item and marks it with its line", async () => {
    const { told, settle, startedAtMs } = play(0);
    await settle();
    expect(told).toMatchObject([{ source: "person", mark: `A windy evening@${startedAtMs}#2` }]);
  });

  it("goes on after the last mark without a repeat", async () => {
    const startedAtMs = startWallMs - 6.5 * minuteMs;
    const { told, settle } = play(6.5, { mark: `A windy evening@${startedAtMs}#5` });
    await settle();
    expect(minutes(told)).toEqual([4, 5, 6]);
  });

  it("begins at the beginning after the mark of another play", async () => {
    const { told, settle } = play(1.5, { mark: "A windy evening@1000#5" });
    await settle();
    expect(minutes(told)).toEqual([0, 1]);
  });

  it("holds the link when its time comes", async () => {
    const { holds, settle } = play(3);
    await settle(minuteMs - 1);
    expect(holds).toEqual([]);
    await settle(1);
    expect(holds).toEqual([2 * minuteMs]);
  });

  it("holds the link for the rest of a hold that began before now, also after a restart, and not for one that is over", async () => {
    const during = play(5);
    await during.settle();
    expect(during.holds).toEqual([minuteMs]);
    const again = play(5, { mark: `A windy evening@${during.startedAtMs}#8` });
    await again.settle();
    expect(again.holds).toEqual([minuteMs]);
    const over = play(7);
    await over.settle();
    expect(over.holds).toEqual([]);
  });

  it("tries again a second later what the outbox could not keep", async () => {
    let isWell = false;
    const { told, settle } = play(1.5, { keeps: () => isWell });
    await settle();
    expect(told).toEqual([]);
    isWell = true;
    await settle(1_000);
    expect(minutes(told)).toEqual([0, 1]);
  });

  it("says nothing after it is closed", async () => {
    const { told, settle, source } = play(0);
    await settle();
    await source.close();
    await settle(5 * minuteMs);
    expect(told).toHaveLength(1);
  });
});

describe("scenarioClock", () => {
  it("has a wall clock that is wrong and a steady one that counts from the scenario's beginning", () => {
    const { clock, startedAtMs } = play(30, { wallErrorMs: -95_000 });
    expect(clock()).toEqual({ wallMs: startedAtMs + 30 * minuteMs - 95_000, monoMs: 30 * minuteMs });
  });

  it("goes on steadily when the wall clock is stepped", () => {
    const time = handTime(startWallMs);
    const clock = scenarioClock(time.clock, startWallMs - minuteMs, 0);
    time.stepWall(3_600_000);
    time.pass(1_000);
    expect(clock()).toEqual({ wallMs: startWallMs + 3_601_000, monoMs: minuteMs + 1_000 });
  });
});
