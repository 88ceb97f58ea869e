import { once } from "node:events";
import { type AddressInfo, connect, createServer, type Socket } from "node:net";
import { afterEach, expect, test } from "vitest";
import { until } from "../support/until.ts";
import { startCutProxy } from "./cutProxy.ts";

const closings: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const close of closings.splice(0)) await close();
});

/** An echo behind a proxy, and a connection through it. */
async function anEcho() {
  const server = createServer((socket) => {
    socket.on("error", () => socket.destroy());
    socket.pipe(socket);
  });
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  const proxy = await startCutProxy((server.address() as AddressInfo).port);
  closings.push(
    () => proxy.close(),
    () => {
      server.close();
    },
  );
  return { server, proxy };
}

async function throughProxy(port: number): Promise<{ socket: Socket; heard: () => string }> {
  const socket = connect({ port, host: "127.0.0.1" });
  let heard = "";
  socket.setEncoding("utf8").on("data", (text: string) => (heard += text));
  socket.on("error", () => socket.destroy());
  await once(socket, "connect");
  return { socket, heard: () => heard };
}

test("bytes pass both ways until the cut, and a new connection passes again", async () => {
  const { proxy } = await anEcho();
  const first = await throughProxy(proxy.port);
  first.socket.write("one");
  await until(() => first.heard() === "one", "the echo through the proxy");
  expect(proxy.carrying()).toBe(1);
  expect(proxy.cut()).toBe(1);
  await until(() => first.socket.destroyed, "the cut connection closed");
  const second = await throughProxy(proxy.port);
  second.socket.write("two");
  await until(() => second.heard() === "two", "the echo after the cut");
});

test("with nobody behind it a connection is cut, and the proxy goes on", async () => {
  const { server, proxy } = await anEcho();
  server.close();
  const alone = await throughProxy(proxy.port);
  await until(() => alone.socket.destroyed, "the connection closed");
  expect(proxy.carrying()).toBe(0);
  expect(proxy.cut()).toBe(0);
});
