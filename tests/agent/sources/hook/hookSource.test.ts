import { once } from "node:events";
import type { IncomingMessage } from "node:http";
import { request } from "node:http";
import { connect, createServer } from "node:net";
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
import type { WatchedSource } from "../../../support/watchSource.ts";
import { watchSource } from "../../../support/watchSource.ts";

type Said = { readonly status: number; readonly body: Record<string, unknown> };
type More = { readonly headers?: Record<string, string>; readonly body?: string };

/** Calls as a booth program would, with any headers. */
async function call(
  port: number,
  method: string,
  path: string,
  { headers = {}, body }: More = {},
): Promise<Said> {
  const asked = request({ host: "127.0.0.1", port, method, path, headers, agent: false });
  asked.end(body);
  const [response] = (await once(asked, "response")) as [IncomingMessage];
  let text = "";
  for await (const part of response as AsyncIterable<Buffer>) text += part.toString("utf8");
  return { status: response.statusCode ?? 0, body: JSON.parse(text) as Record<string, unknown> };
}

type Rig = {
  readonly port: number;
  readonly watched: WatchedSource;
  readonly hand: ReturnType<typeof aHandClock>;
  readonly get: (path: string, more?: More) => Promise<Said>;
  readonly post: (path: string, fields?: unknown, more?: More) => Promise<Said>;
};

async function aRig(
  options: { settings?: object; folder?: string; isKept?: () => boolean; hand?: Rig["hand"] } = {},
): Promise<Rig> {
  const port = await freePort();
  const hand = options.hand ?? aHandClock();
  const config = hookSourceConfig.parse({ kind: "hook", port, ...options.settings });
  const source = hookSource(config, { clock: hand.clock, stateFolder: options.folder ?? scratchFolder() });
  const watched = await watchSource(source, options.isKept);
  onTestFinished(() => watched.close());
  await until(() => watched.answers.length + watched.refused.length > 0, "it listens");
  return {
    port,
    watched,
    hand,
    get: (path, more) => call(port, "GET", path, more),
    post: (path, fields, more = {}) =>
      call(port, "POST", path, {
        body: fields === undefined ? "" : JSON.stringify(fields),
        ...more,
        headers: { "content-type": "application/json", ...more.headers },
      }),
  };
}

describe("what a booth program can say", () => {
  test("guests began, finished so much later, and a print of theirs", async () => {
    const { watched, hand, post } = await aRig();
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
    const { watched, hand, get } = await aRig();
    await get("/session/begun?sessionId=a");
    hand.pass(30_000);
    expect((await get("/session/finished?sessionId=a")).status).toBe(200);
    await get("/print?sessionId=a&copies=3&size=6x8");
    expect(watched.items("session")).toMatchObject([{ durationMs: 30_000 }]);
    expect(watched.items("print")).toMatchObject([{ copies: 3, pitches: 6 }]);
  });
  test("without any id: what finishes is what began last", async () => {
    const { watched, hand, get } = await aRig();
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
    const { watched, post } = await aRig();
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
    const { watched, get } = await aRig();
    await get(`/print?${query}`);
    expect(watched.items("print")).toMatchObject([{ pitches }]);
  });
});

describe("the same id again", () => {
  test("counts once, and is answered as well", async () => {
    const { watched, post } = await aRig();
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
    const first = await aRig({ folder, hand });
    await first.post("/session/begun", { sessionId: "a" });
    await first.post("/print", { printId: "p" });
    await first.watched.close();
    hand.pass(90_000);
    const second = await aRig({ folder, hand });
    expect((await second.post("/print", { printId: "p" })).body).toMatchObject({ counted: false });
    await second.post("/session/finished", { sessionId: "a" });
    expect(second.watched.items("session")).toMatchObject([
      { sessionId: first.watched.items("sessionBegun")[0]?.sessionId, durationMs: 90_000 },
    ]);
  });
  test("at the next event is another session: some programs number from 1 each evening", async () => {
    const { watched, hand, post } = await aRig();
    await post("/session/finished", { sessionId: "1" });
    hand.pass(7 * 3_600_000);
    expect((await post("/session/finished", { sessionId: "1" })).body).toMatchObject({ counted: true });
    expect(new Set(watched.items("session").map(({ sessionId }) => sessionId)).size).toBe(2);
  });
  test("after a call that could not be kept counts, under the id it had", async () => {
    let isKept = true;
    const { watched, hand, post } = await aRig({ isKept: () => isKept });
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
    const asked = call(port, "POST", "/session/finished").then((answer) => (said = answer));
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
    await until(async () => (await call(port, "GET", "/session/finished")).status === 200, "it is answered");
    const wait = (): Promise<void> => Promise.resolve();
    const other = await openOutbox({ folder, clock, wait, log: keptLog().log });
    onTestFinished(() => other.close());
    const kinds = other.peek(10)?.items.map(({ kind }) => kind);
    expect(kinds).toEqual(["sourceState", "session"]);
  });
});

describe("what is refused", () => {
  test.each([
    ["/print?copies=none", "copies", 'copies must be a whole number from 1 to 1000, got "none"'],
    ["/print?copies=0", "copies", 'copies must be a whole number from 1 to 1000, got "0"'],
    ["/print?copies=1.5", "copies", 'copies must be a whole number from 1 to 1000, got "1.5"'],
    ["/print?pitches=-2", "pitches", 'pitches must be a number from 0 to 10000, got "-2"'],
    ["/print?size=large", "size", /^size must be a size in inches such as 4x6.*, got "large"$/],
    [
      "/print?copys=2",
      "copys",
      "copys is not known here; known are printId, sessionId, copies, size, pitches",
    ],
    ["/print?copies=1&copies=2", "copies", "copies is there more than once"],
    ["/session/begun?sessionId=", "sessionId", 'sessionId must not be empty, got ""'],
    [`/session/begun?sessionId=${"x".repeat(61)}`, "sessionId", /^sessionId must have at most 60 characters/],
    [
      "/session/finished?durationMs=99999999",
      "durationMs",
      /^durationMs must be a whole number from 0 to 86400000/,
    ],
  ])("%s names the field", async (path, field, error) => {
    const { watched, get } = await aRig();
    expect(await get(path)).toEqual({
      status: 400,
      body: { field, error: typeof error === "string" ? error : (expect.stringMatching(error) as string) },
    });
    expect(watched.answers).toEqual([{ items: [] }]);
  });
  test.each([
    ["[]", 400],
    ['"a"', 400],
    ["{", 400],
    ['{"sessionId":{}}', 400],
    ["of 5 kB", 413],
    ["of 500 kB", 413],
  ])("a body %s", async (body, status) => {
    const { post, watched } = await aRig();
    const kilobytes = Number(/^of (\d+) kB$/.exec(body)?.[1] ?? 0);
    const sent = kilobytes > 0 ? `{"sessionId":"${"x".repeat(1_000 * kilobytes)}"}` : body;
    expect((await post("/session/begun", undefined, { body: sent })).status).toBe(status);
    expect(watched.items("sessionBegun")).toEqual([]);
  });
  test("a body without an end, and the next call is answered", async () => {
    const { port, get } = await aRig();
    const headers = { "content-type": "application/json" };
    const endless = request({ host: "127.0.0.1", port, method: "POST", path: "/print", headers });
    const more = (): void => {
      while (!endless.destroyed && endless.write(Buffer.alloc(65_536, 0x20)));
    };
    endless.on("drain", more);
    more();
    await once(endless, "error");
    expect((await get("/print")).status).toBe(200);
  });
  test("other addresses, other methods, other kinds of body", async () => {
    const { port, get, post } = await aRig();
    expect(await get("/")).toMatchObject({ status: 404 });
    expect(await call(port, "PUT", "/print")).toMatchObject({ status: 405 });
    const plain = { headers: { "content-type": "text/plain" } };
    expect(await post("/print", {}, plain)).toMatchObject({ status: 415 });
    expect(await post("/print?copies=2", { copies: 2 })).toMatchObject({
      status: 400,
      body: { field: "copies" },
    });
  });
  // Fetch standard; Fetch Metadata Request Headers (W3C): what a browser adds by itself.
  test.each([
    [421, { host: "booth.example:8465" }],
    [421, { host: "127.0.0.1.booth.example" }],
    [403, { origin: "https://booth.example" }],
    [403, { origin: "null" }],
    [403, { "sec-fetch-site": "cross-site" }],
    [403, { "sec-fetch-site": "same-site" }],
    [403, { "sec-purpose": "prefetch" }],
    [200, { "sec-fetch-site": "none" }],
    [200, { host: "localhost" }],
  ])("%i for the headers %j", async (status, headers: Record<string, string>) => {
    const { get, watched } = await aRig();
    expect((await get("/session/finished", { headers })).status).toBe(status);
    expect(watched.items("session")).toHaveLength(status === 200 ? 1 : 0);
  });
  test("a call without the token, where there is one", async () => {
    const { get } = await aRig({ settings: { token: "open-the-booth" } });
    expect((await get("/print")).status).toBe(401);
    expect((await get("/print?token=open-the-boot")).status).toBe(401);
    expect((await get("/print?token=open-the-booth")).status).toBe(200);
    const headers = { authorization: "Bearer open-the-booth" };
    expect((await get("/print", { headers })).status).toBe(200);
  });
});

describe("the port", () => {
  test("that is taken is a fault that says so, until it is free", async () => {
    const blocker = createServer().listen(0, "127.0.0.1");
    await once(blocker, "listening");
    const { port } = blocker.address() as { port: number };
    const config = hookSourceConfig.parse({ kind: "hook", port });
    const source = hookSource(config, { clock: aHandClock().clock, stateFolder: scratchFolder() });
    const watched = await watchSource(source);
    onTestFinished(() => watched.close());
    await until(() => watched.fault() === "refused", "the taken port is told");
    expect(watched.answers[0]).toMatchObject({ detail: expect.stringContaining(`port ${port} `) as string });
    blocker.close();
    await until(() => watched.fault() === null, "it listens once the port is free");
    expect((await call(port, "GET", "/print")).status).toBe(200);
  });
  test("is free again when the source is closed, also with a caller that says nothing", async () => {
    const { port, watched } = await aRig();
    const idle = connect(port, "127.0.0.1");
    idle.on("error", () => undefined);
    await once(idle, "connect");
    await watched.close();
    const again = createServer().listen(port, "127.0.0.1");
    await once(again, "listening");
    again.close();
  });
  test("a source that is closed at once does not go on listening", async () => {
    const port = await freePort();
    const config = hookSourceConfig.parse({ kind: "hook", port });
    const source = hookSource(config, { clock: aHandClock().clock, stateFolder: scratchFolder() });
    await source.start(() => Promise.resolve(true));
    await source.close();
    const again = createServer();
    await until(async () => {
      again.listen(port, "127.0.0.1");
      await once(again, "listening");
      return true;
    }, "the port is free");
    again.close();
  });
});
