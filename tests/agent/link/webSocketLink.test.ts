import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { describe, expect, it, onTestFinished } from "vitest";
import { type WebSocket, WebSocketServer } from "ws";
import type { SignIn } from "../../../agent/link/linkSocket.ts";
import type { Ending } from "../../../agent/link/trouble.ts";
import { linkUrl, webSocketLink } from "../../../agent/link/webSocketLink.ts";
import { freePort } from "../../support/freePort.ts";

type Heard = { opened: number; texts: string[]; endings: Ending[] };

function connect(signIn: SignIn): { heard: Heard; socket: ReturnType<typeof webSocketLink> } {
  const heard: Heard = { opened: 0, texts: [], endings: [] };
  const socket = webSocketLink(signIn, {
    opened: () => (heard.opened += 1),
    text: (text) => heard.texts.push(text),
    ended: (ending) => heard.endings.push(ending),
  });
  return { heard, socket };
}

/** A server on a port of its own that gives the test each socket as it comes. */
async function aServer(): Promise<{
  dashboard: string;
  next: () => Promise<[WebSocket, { headers: object; url: string }]>;
}> {
  const server = new WebSocketServer({ port: 0, host: "127.0.0.1", perMessageDeflate: true });
  await once(server, "listening");
  onTestFinished(() => {
    for (const client of server.clients) client.terminate();
    server.close();
  });
  const { port } = server.address() as AddressInfo;
  return {
    dashboard: `http://127.0.0.1:${port}`,
    next: () => once(server, "connection") as Promise<[WebSocket, { headers: object; url: string }]>,
  };
}

describe("webSocketLink", () => {
  it.each([
    ["http://192.0.2.7:8460", "ws://192.0.2.7:8460/link"],
    ["https://booths.example", "wss://booths.example/link"],
    ["https://booths.example/prints/", "wss://booths.example/prints/link"],
  ])("reaches the link of %s at %s", (dashboard, url) => {
    expect(linkUrl(dashboard)).toBe(url);
  });

  it("[L1] opens with Authorization: Bearer TOKEN on /link, offering compression", async () => {
    const { dashboard, next } = await aServer();
    const { heard } = connect({ dashboard, token: "token-of-this-agent" });
    const [, request] = await next();
    expect(request.url).toBe("/link");
    expect(request.headers).toMatchObject({
      authorization: "Bearer token-of-this-agent",
      "sec-websocket-extensions": expect.stringContaining("permessage-deflate") as string,
    });
    await expect.poll(() => heard.opened).toBe(1);
  });

  it("carries frames both ways and tells the close code with its reason", async () => {
    const { dashboard, next } = await aServer();
    const { heard, socket } = connect({ dashboard, token: "t" });
    const [peer] = await next();
    await expect.poll(() => heard.opened).toBe(1);
    const long = JSON.stringify({ kind: "long", words: "word ".repeat(1_000) });
    socket.send(long);
    const [bytes] = (await once(peer, "message")) as [Buffer];
    expect(bytes.toString()).toBe(long);
    peer.send('{"kind":"ack"}');
    await expect.poll(() => heard.texts).toEqual(['{"kind":"ack"}']);
    peer.close(4403, "revoked");
    await expect.poll(() => heard.endings).toEqual([{ closeCode: 4403, words: "revoked" }]);
  });

  it("gives its own close code and a reason that fits", async () => {
    const { dashboard, next } = await aServer();
    const { heard, socket } = connect({ dashboard, token: "t" });
    const [peer] = await next();
    await expect.poll(() => heard.opened).toBe(1);
    socket.close(4400, "é".repeat(100));
    const [code, reason] = (await once(peer, "close")) as [number, Buffer];
    expect(code).toBe(4400);
    // RFC 6455 section 5.5: a control frame carries at most 125 bytes, two of them the code.
    expect(reason.toString()).toBe("é".repeat(61));
  });

  it("[F2] ends a connection whose frame is over the size limit", async () => {
    const { dashboard, next } = await aServer();
    const { heard } = connect({ dashboard, token: "t" });
    const [peer] = await next();
    peer.send("x".repeat(1024 * 1024 + 1));
    const [code] = (await once(peer, "close")) as [number];
    // RFC 6455 section 7.4.1: 1009, a message too big to process.
    expect(code).toBe(1009);
    await expect.poll(() => heard.endings).toHaveLength(1);
    expect(heard.texts).toEqual([]);
  });

  it.each([401, 403, 404])("tells the HTTP status %i of a refusal", async (status) => {
    const server = createServer((_, response) => response.writeHead(status).end());
    server.on("upgrade", (_, socket) => socket.end(`HTTP/1.1 ${status} No\r\nContent-Length: 0\r\n\r\n`));
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    onTestFinished(() => void server.close());
    const { port } = server.address() as AddressInfo;
    const { heard } = connect({ dashboard: `http://127.0.0.1:${port}`, token: "t" });
    await expect.poll(() => heard.endings).toEqual([{ status, words: `HTTP status ${status}` }]);
    expect(heard.opened).toBe(0);
  });

  it("tells why nobody answers", async () => {
    const { heard } = connect({ dashboard: `http://127.0.0.1:${await freePort()}`, token: "t" });
    await expect.poll(() => heard.endings).toHaveLength(1);
    expect(heard.endings[0]?.words).toContain("ECONNREFUSED");
  });

  it("can be cut while it is still opening, and tells that once", async () => {
    const { dashboard } = await aServer();
    const { heard, socket } = connect({ dashboard, token: "t" });
    socket.cut();
    await expect.poll(() => heard.endings).toHaveLength(1);
  });
});
