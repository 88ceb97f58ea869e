import { once } from "node:events";
import { createServer } from "node:http";
import type { RequestListener } from "node:http";
import * as net from "node:net";
import type { AddressInfo } from "node:net";
import { afterEach, describe, expect, test } from "vitest";
import { decodeIpp } from "../../../../agent/sources/ipp/decodeIpp.ts";
import { encodeIpp } from "../../../../agent/sources/ipp/encodeIpp.ts";
import { ippSource } from "../../../../agent/sources/ipp/ippSource.ts";
import { ippSourceConfig } from "../../../../agent/sources/ipp/ippSourceConfig.ts";
import { freePort } from "../../../support/freePort.ts";
import { until } from "../../../support/until.ts";
import type { WatchedSource } from "../../../support/watchSource.ts";
import { realClock, tempFolder, watchSource } from "../../../support/watchSource.ts";

const cleanups: (() => unknown)[] = [];
afterEach(async () => {
  for (const cleanup of cleanups.splice(0).reverse()) await cleanup();
});

/** A queue that answers every request in its own bad way. */
async function badQueue(answer: RequestListener): Promise<string> {
  const server = createServer(answer).listen(0, "127.0.0.1");
  await once(server, "listening");
  cleanups.push(() => {
    server.closeAllConnections();
    server.close();
  });
  return `ipp://127.0.0.1:${(server.address() as AddressInfo).port}/printers/booth`;
}

async function watchQueue(uri: string, more: object = {}): Promise<WatchedSource> {
  const folder = await tempFolder();
  const config = ippSourceConfig.parse({ kind: "ipp", uri, timeoutMs: 300, ...more });
  const watched = await watchSource(ippSource(config, { clock: realClock, stateFolder: folder.path }));
  cleanups.push(
    () => folder.remove(),
    () => watched.close(),
  );
  return watched;
}

async function faultOf(uri: string, more: object = {}): Promise<string> {
  const watched = await watchQueue(uri, more);
  await until(() => watched.fault() !== null, "the queue has a fault");
  const last = watched.answers.at(-1);
  return last && "fault" in last ? `${last.fault} | ${last.detail}` : "";
}

/** An IPP reply with this status to whatever was asked. */
function replying(status: number): RequestListener {
  return (request, response) => {
    const chunks: Buffer[] = [];
    request.on("data", (chunk: Buffer) => chunks.push(chunk));
    request.on("end", () => {
      const asked = decodeIpp(Buffer.concat(chunks));
      if ("malformed" in asked) throw new Error(asked.malformed);
      response.end(encodeIpp({ ...asked.message, code: status, groups: [], data: new Uint8Array() }));
    });
  };
}

describe("a queue that does not answer well has a fault with a word and a reason", () => {
  test("nothing listens", async () => {
    const uri = `ipp://127.0.0.1:${await freePort()}/printers/booth`;
    expect(await faultOf(uri)).toMatch(/^unreachable \| ipp:.*ECONNREFUSED: nothing listens there/);
  });
  test("no computer of this name", async () => {
    // RFC 6761 section 6.4: names under .invalid never exist.
    expect(await faultOf("ipp://booth.invalid/printers/booth", { timeoutMs: 10_000 })).toMatch(
      /^unreachable \|.*(ENOTFOUND|EAI_AGAIN)/,
    );
  });
  test("it takes the request and never answers", async () => {
    expect(await faultOf(await badQueue(() => undefined))).toMatch(/^timeout \|.*within 300 ms/);
  });
  test("it begins to answer and hangs", async () => {
    const uri = await badQueue((_request, response) => {
      response.writeHead(200, { "Content-Type": "application/ipp" });
      response.write("\x01\x01");
    });
    expect(await faultOf(uri)).toMatch(/^timeout \|/);
  });
  test("it hangs up in the middle of the answer", async () => {
    const uri = await badQueue((_request, response) => {
      response.writeHead(200, { "Content-Length": "500" });
      response.write("\x01\x01", () => response.destroy());
    });
    expect(await faultOf(uri)).toMatch(/^unreachable \|.*the connection was cut/);
  });
  test("it answers with a web page", async () => {
    const uri = await badQueue((_request, response) => response.end("<!doctype html><title>Hello</title>"));
    expect(await faultOf(uri)).toMatch(/^unreadable \|.*the reply is not IPP/);
  });
  test("it answers with endless bytes", async () => {
    const uri = await badQueue((_request, response) => {
      const more = (): void => {
        while (!response.destroyed && response.write(Buffer.alloc(65_536, 1)));
      };
      response.on("drain", more);
      more();
    });
    expect(await faultOf(uri, { timeoutMs: 10_000 })).toMatch(/^unreadable \|.*over 4194304 bytes/);
  });
  test("it does not speak HTTP", async () => {
    const server = net.createServer((socket) => {
      socket.on("error", () => undefined);
      socket.end("220 hello\r\n");
    });
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    cleanups.push(() => server.close());
    const { port } = server.address() as AddressInfo;
    expect(await faultOf(`ipp://127.0.0.1:${port}/`)).toMatch(/^unreadable \|.*not HTTP/);
  });
  test.each([
    [401, /^refused \|.*HTTP status 401/],
    [403, /^refused \|.*HTTP status 403/],
    [404, /^notFound \|.*HTTP status 404/],
    [426, /^refused \|.*wants ipps/],
    [500, /^unreadable \|.*HTTP status 500/],
  ])("HTTP status %i", async (status, words) => {
    const uri = await badQueue((_request, response) => response.writeHead(status).end("no"));
    expect(await faultOf(uri)).toMatch(words);
  });
  // RFC 8011 appendix B.1
  test.each([
    [0x0401, /^refused \|.*0x0401/],
    [0x0403, /^refused \|.*0x0403/],
    [0x0406, /^notFound \|.*0x0406/],
    [0x0500, /^unreadable \|.*0x0500/],
    [0x0503, /^unsupported \|.*0x0503/],
    [0x0507, /^unreachable \|.*0x0507/],
  ])("IPP status %i", async (status, words) => {
    expect(await faultOf(await badQueue(replying(status)))).toMatch(words);
  });
});

test("a source of a hanging queue closes without waiting for it", async () => {
  let asked = 0;
  const watched = await watchQueue(await badQueue(() => void (asked += 1)), { timeoutMs: 60_000 });
  await until(() => asked > 0, "the queue is asked");
  await watched.close();
  const said = watched.answers.length;
  expect(said).toBe(0);
});

test.each(["printers/booth", "ftp://booth/", "ipp://", "//x"])(
  "the address %s is refused by the settings",
  (uri) => {
    const parsed = ippSourceConfig.safeParse({ kind: "ipp", uri });
    expect(parsed.error?.issues[0]?.path).toEqual(["uri"]);
  },
);
