import { describe, expect, it } from "vitest";
import type { AppendItem } from "../../../agent/outbox/outbox.ts";
import type { Emit, Source, SourceAnswer } from "../../../agent/readings/source.ts";
import { takeReadings } from "../../../agent/readings/takeReadings.ts";
import { handTime } from "../../support/handTime.ts";
import { keptLog } from "../../support/keptLog.ts";

const warmth = (insideC: number): SourceAnswer => ({
  items: [{ item: { class: "reading", kind: "inside", sensor: "case", insideC, humidityPct: null } }],
});
const timeout: SourceAnswer = { fault: "timeout", detail: "no answer within 10000 ms" };
const missing: SourceAnswer = { fault: "missing", detail: "no such sensor" };

/** A source that says what the test tells it to. */
function aSource(name: string): Source & { say: Emit; isClosed: boolean } {
  let say: Emit = () => Promise.reject(new Error("not started"));
  return {
    name,
    isClosed: false,
    start: (emit) => void (say = emit),
    say: (answer) => say(answer),
    close() {
      this.isClosed = true;
      return Promise.resolve();
    },
  };
}

/** An item as `inside 31` or `fault timeout`. */
function words(item: AppendItem): string {
  if (item.kind === "inside") return `inside ${item.insideC}`;
  return item.kind === "sourceState" ? `fault ${item.fault}` : item.kind;
}

function rig(...sources: Source[]) {
  const time = handTime();
  const kept = keptLog();
  const appended: AppendItem[] = [];
  const append = (items: readonly AppendItem[]) => Promise.resolve(void appended.push(...items));
  const readings = takeReadings({ sources, clock: time.clock, append, log: kept.log });
  return { time, kept, appended, readings };
}

describe("takeReadings", () => {
  it("stamps items with the source and both clocks", async () => {
    const source = aSource("thermometer");
    const { appended, time } = rig(source);
    await source.say({ items: [] });
    time.pass(5_000);
    await source.say(warmth(31));
    expect(appended.at(-1)).toEqual({
      class: "reading",
      kind: "inside",
      sensor: "case",
      insideC: 31,
      humidityPct: null,
      source: "thermometer",
      atMs: Date.UTC(2026, 5, 20, 18, 0, 5),
      monoMs: 6_000,
    });
  });

  it("moves an item back on both clocks by how long ago it happened", async () => {
    const source = aSource("layouts");
    const { appended } = rig(source);
    await source.say({
      items: [{ item: { class: "fact", kind: "rollFitted", sheets: 400, by: null }, agoMs: 1_500 }],
    });
    expect(appended.at(-1)).toMatchObject({ atMs: Date.UTC(2026, 5, 20, 18) - 1_500, monoMs: -500 });
  });

  it("takes the clock, the source and the mark of a played item as they are", async () => {
    const source = aSource("scenario");
    const { appended } = rig(source);
    const item = { class: "fact", kind: "rollFitted", sheets: 400, by: null } as const;
    const clock = { wallMs: 10, monoMs: 20 };
    await source.say({ items: [{ item, clock, source: "printer", mark: "line 3" }] });
    expect(appended.at(-1)).toMatchObject({ atMs: 10, monoMs: 20, source: "printer", mark: "line 3" });
  });

  it("tells once that a source has a value, when a fault begins, changes and ends", async () => {
    const source = aSource("thermometer");
    const { appended, kept } = rig(source);
    for (const answer of [warmth(30), warmth(31), timeout, timeout, missing, warmth(32), warmth(33)])
      await source.say(answer);
    expect(appended.map(words)).toEqual([
      "fault null",
      "inside 30",
      "inside 31",
      "fault timeout",
      "fault missing",
      "fault null",
      "inside 32",
      "inside 33",
    ]);
    expect(kept.lines.map(({ level }) => level)).toEqual(["warn", "warn", "info"]);
  });

  it("keeps the faults of sources apart", async () => {
    const one = aSource("one");
    const other = aSource("other");
    const { appended } = rig(one, other);
    await one.say(timeout);
    await other.say(warmth(30));
    expect(appended.map((item) => `${item.source} ${words(item)}`)).toEqual([
      "one fault timeout",
      "other fault null",
      "other inside 30",
    ]);
  });

  it("clips a long detail to what an item may carry", async () => {
    const source = aSource("one");
    const { appended } = rig(source);
    await source.say({ fault: "unreadable", detail: "x".repeat(5_000) });
    expect(appended[0]).toMatchObject({ detail: "x".repeat(200) });
  });

  it("makes a fault of a source that cannot start, and starts the others", async () => {
    const broken: Source = {
      name: "broken",
      start: () => {
        throw new Error("no such bus");
      },
      close: () => Promise.resolve(),
    };
    const well = aSource("well");
    const { appended } = rig(broken, well);
    await well.say(warmth(30));
    expect(appended.map(words).sort()).toEqual(["fault null", "fault unreadable", "inside 30"]);
  });

  it("says false to a source whose items could not be kept, and logs it", async () => {
    const source = aSource("one");
    const kept = keptLog();
    takeReadings({
      sources: [source],
      clock: handTime().clock,
      append: () => Promise.reject(new Error("the outbox is closed")),
      log: kept.log,
    });
    expect(await source.say(warmth(30))).toBe(false);
    expect(kept.sentences()).toEqual(["items could not be kept"]);
  });

  it("closes every source, also behind one that does not close", async () => {
    const stuck: Source = {
      name: "stuck",
      start: () => undefined,
      close: () => Promise.reject(new Error("stuck")),
    };
    const well = aSource("well");
    const { readings, kept } = rig(stuck, well);
    await readings.close();
    expect(well.isClosed).toBe(true);
    expect(kept.sentences()).toEqual(["a source did not close"]);
  });
});
