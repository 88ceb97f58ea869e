import { once } from "node:events";
import { request } from "node:http";
import { connect, createServer } from "node:net";
import { describe, expect, onTestFinished, test } from "vitest";
import { hookSource } from "../../../../agent/sources/hook/hookSource.ts";
import { hookSourceConfig } from "../../../../agent/sources/hook/hookSourceConfig.ts";
import { aHandClock } from "../../../support/aHandClock.ts";
import { freePort } from "../../../support/freePort.ts";
import { scratchFolder } from "../../../support/scratchFolder.ts";
import { until } from "../../../support/until.ts";
import { watchSource } from "../../../support/watchSource.ts";
import { aHook, callHook } from "../../../support/aHook.ts";

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
    const { watched, get } = await aHook();
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
    const { post, watched } = await aHook();
    const kilobytes = Number(/^of (\d+) kB$/.exec(body)?.[1] ?? 0);
    const sent = kilobytes > 0 ? `{"sessionId":"${"x".repeat(1_000 * kilobytes)}"}` : body;
    expect((await post("/session/begun", undefined, { body: sent })).status).toBe(status);
    expect(watched.items("sessionBegun")).toEqual([]);
  });
  test("a body without an end, and the next call is answered", async () => {
    const { port, get } = await aHook();
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
    const { port, get, post } = await aHook();
    expect(await get("/")).toMatchObject({ status: 404 });
    expect(await callHook(port, "PUT", "/print")).toMatchObject({ status: 405 });
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
    const { get, watched } = await aHook();
    expect((await get("/session/finished", { headers })).status).toBe(status);
    expect(watched.items("session")).toHaveLength(status === 200 ? 1 : 0);
  });
  test("a call without the token, where there is one", async () => {
    const { get } = await aHook({ settings: { token: "open-the-booth" } });
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
    expect((await callHook(port, "GET", "/print")).status).toBe(200);
  });
  test("is free again when the source is closed, also with a caller that says nothing", async () => {
    const { port, watched } = await aHook();
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
