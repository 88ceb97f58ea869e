import { describe, expect, onTestFinished, test } from "vitest";
import { openOutbox } from "../../../../agent/outbox/outbox.ts";
import type { SourceAnswer } from "../../../../agent/readings/source.ts";
import { takeReadings } from "../../../../agent/readings/takeReadings.ts";
import { hookSource } from "../../../../agent/sources/hook/hookSource.ts";
import { hookSourceConfig } from "../../../../agent/sources/hook/hookSourceConfig.ts";
import { aHandClock } from "../../../support/aHandClock.ts";
import { freePort } from "../../../support/freePort.ts";
import { keptLog } from "../../../support/keptLog.ts";
import { scratchFolder } from "../../../support/scratchFolder.ts";
import { testOutbox } from "../../../support/testOutbox.ts";
import { until } from "../../../support/until.ts";
import { aHook, callHook, type Said } from "../../../support/aHook.ts";

describe("what a booth program can say", () => {
  test("guests began, finished so much later, and a print of theirs", async () => {
    const { watched, hand, post } = await aHook();
    expect(await post("/session/begun", { sessionId: "a" })).toEqual({
      status: 200,
      body: { counted: true, sessionId: "a" },
    });
    hand.pass(45_000);
    await post("/session/finished", { sessionId: "a" });
    await post("/print", { printId: "p", sessionId: "a", copies: 2 });
    const [begun] = watched.items("sessionBegun");
    expect(watched.items("session")).toEqual([
      {
        ...{ class: "fact", kind: "session", basis: "hook", layouts: null, shots: null },
        ...{ sessionId: begun?.sessionId, durationMs: 45_000 },
      },
    ]);
    expect(watched.items("print")).toMatchObject([
      { basis: "hook", sessionId: begun?.sessionId, copies: 2, pitches: 2, queue: null },
    ]);
  });
  test("the same by opening an address", async () => {
    const { watched, hand, get } = await aHook();
    await get("/session/begun?sessionId=a");
    hand.pass(30_000);
    expect((await get("/session/finished?sessionId=a")).status).toBe(200);
    await get("/print?sessionId=a&copies=3&size=6x8");
    expect(watched.items("session")).toMatchObject([{ durationMs: 30_000 }]);
    expect(watched.items("print")).toMatchObject([{ copies: 3, pitches: 6 }]);
  });
  test("without any id: what finishes is what began last", async () => {
    const { watched, hand, get } = await aHook();
    await get("/session/begun");
    hand.pass(20_000);
    await get("/session/finished");
    hand.pass(60_000);
    await get("/session/finished");
    expect(watched.items("session").map(({ durationMs }) => durationMs)).toEqual([20_000, null]);
    expect(watched.items("session")[0]?.sessionId).toBe(watched.items("sessionBegun")[0]?.sessionId);
    expect(new Set(watched.items("session").map(({ sessionId }) => sessionId)).size).toBe(2);
  });
  test("how long it took, where the program knows better", async () => {
    const { watched, post } = await aHook();
    await post("/session/finished", { sessionId: 17, durationMs: 61_000 });
    expect(watched.items("session")).toMatchObject([{ durationMs: 61_000 }]);
  });
  // A pair of 2x6 strips is cut from one 4x6 length, 6x8 takes two: common practice, no source.
  test.each([
    ["copies=4", 4],
    ["copies=4&size=4x6", 4],
    ["copies=4&size=2X6", 2],
    ["copies=3&size=2x6", 2],
    ["copies=2&size=6x8", 4],
    ["copies=2&size=6x8&pitches=3", 3],
    ["", 1],
  ])("/print?%s uses %i lengths of 4x6", async (query, pitches) => {
    const { watched, get } = await aHook();
    await get(`/print?${query}`);
    expect(watched.items("print")).toMatchObject([{ pitches }]);
  });
});

describe("the same id again", () => {
  test("counts once, and is answered as well", async () => {
    const { watched, post } = await aHook();
    for (const path of ["/session/begun", "/session/finished"]) {
      expect((await post(path, { sessionId: "a" })).body).toMatchObject({ counted: true });
      expect((await post(path, { sessionId: "a" })).body).toEqual({ counted: false, sessionId: "a" });
    }
    await Promise.all(Array.from({ length: 8 }, () => post("/print", { printId: "p" })));
    expect(watched.items("sessionBegun")).toHaveLength(1);
    expect(watched.items("session")).toHaveLength(1);
    expect(watched.items("print")).toHaveLength(1);
  });
  test("counts once over a restart of the agent too", async () => {
    const folder = scratchFolder();
    const hand = aHandClock();
    const first = await aHook({ folder, hand });
    await first.post("/session/begun", { sessionId: "a" });
    await first.post("/print", { printId: "p" });
    await first.watched.close();
    hand.pass(90_000);
    const second = await aHook({ folder, hand });
    expect((await second.post("/print", { printId: "p" })).body).toMatchObject({ counted: false });
    await second.post("/session/finished", { sessionId: "a" });
    expect(second.watched.items("session")).toMatchObject([
      { sessionId: first.watched.items("sessionBegun")[0]?.sessionId, durationMs: 90_000 },
    ]);
  });
  test("at the next event is another session: some programs number from 1 each evening", async () => {
    const { watched, hand, post } = await aHook();
    await post("/session/finished", { sessionId: "1" });
    hand.pass(7 * 3_600_000);
    expect((await post("/session/finished", { sessionId: "1" })).body).toMatchObject({ counted: true });
    expect(new Set(watched.items("session").map(({ sessionId }) => sessionId)).size).toBe(2);
  });
  test("after a call that could not be kept counts, under the id it had", async () => {
    let isKept = true;
    const { watched, hand, post } = await aHook({ isKept: () => isKept });
    isKept = false;
    expect(await post("/print", { printId: "p" })).toMatchObject({
      status: 503,
      body: { error: expect.stringContaining("call again") as string },
    });
    const [refused] = watched.refused;
    isKept = true;
    hand.pass(5_000);
    expect((await post("/print", { printId: "p" })).body).toMatchObject({ counted: true });
    const told = refused && "items" in refused ? refused.items[0]?.item : null;
    expect(watched.items("print")).toEqual([told]);
  });
});

describe("durable before 200", () => {
  test("the answer waits until the fact is kept", async () => {
    const port = await freePort();
    const config = hookSourceConfig.parse({ kind: "hook", port });
    const source = hookSource(config, { clock: aHandClock().clock, stateFolder: scratchFolder() });
    const handed: { answer: SourceAnswer; keep: (isKept: boolean) => void }[] = [];
    await source.start((answer) => new Promise((keep) => handed.push({ answer, keep })));
    onTestFinished(() => source.close());
    await until(() => handed.length === 1, "it listens");
    let said: Said | null = null;
    const asked = callHook(port, "POST", "/session/finished").then((answer) => (said = answer));
    await until(() => handed.length === 2, "the fact is handed on");
    expect(said).toBeNull();
    handed[1]?.keep(true);
    expect((await asked).status).toBe(200);
  });
  test("what was answered with 200 is in an outbox that is opened anew", async () => {
    const folder = scratchFolder();
    const port = await freePort();
    const { clock } = aHandClock();
    const outbox = await testOutbox({ folder });
    outbox.startBoot("boot-1");
    const config = hookSourceConfig.parse({ kind: "hook", port });
    const source = hookSource(config, { clock, stateFolder: scratchFolder() });
    const append = outbox.append.bind(outbox);
    const readings = takeReadings({ sources: [source], clock, append, log: keptLog().log });
    onTestFinished(() => readings.close());
    await until(
      async () => (await callHook(port, "GET", "/session/finished")).status === 200,
      "it is answered",
    );
    const wait = (): Promise<void> => Promise.resolve();
    const other = await openOutbox({ folder, clock, wait, log: keptLog().log });
    onTestFinished(() => other.close());
    const kinds = other.peek(10)?.items.map(({ kind }) => kind);
    expect(kinds).toEqual(["sourceState", "session"]);
  });
});
