import { once } from "node:events";
import { readFileSync } from "node:fs";
import { request, type IncomingMessage } from "node:http";
import { createServer } from "node:https";
import { connect } from "node:net";
import { onTestFinished } from "vitest";
import type { TlsFiles } from "../../dashboard/http/openServer.ts";

/**
 * A proxy that keeps the certificate and hands plain HTTP on to this computer, as the README asks one to: the host as
 * it was asked, whose request it is, and sockets. `asIf`: the address that it says the request came from.
 */
export async function aTlsProxy(port: number, files: TlsFiles, to: string, asIf: string): Promise<void> {
  const tls = { cert: readFileSync(files.certFile), key: readFileSync(files.keyFile) };
  const { hostname, port: toPort } = new URL(to);
  const forwarded = ({ headers }: IncomingMessage) => ({
    ...headers,
    ...{ "x-forwarded-for": asIf, "x-forwarded-proto": "https" },
  });
  const proxy = createServer(tls, (asked, answer) => {
    const place = { host: hostname, port: toPort, path: asked.url, method: asked.method };
    const passed = request({ ...place, headers: forwarded(asked) }, (came) => {
      answer.writeHead(came.statusCode ?? 502, came.headers);
      came.pipe(answer);
    });
    passed.on("error", () => answer.destroy());
    asked.pipe(passed);
  });
  proxy.on("upgrade", (asked, socket, head) => {
    const inner = connect(Number(toPort), hostname, () => {
      const lines = Object.entries(forwarded(asked)).map(([name, said]) => `${name}: ${String(said)}`);
      inner.write([`GET ${asked.url} HTTP/1.1`, ...lines, "", ""].join("\r\n"));
      inner.write(head);
      inner.pipe(socket).pipe(inner);
    });
    inner.on("error", () => socket.destroy());
    socket.on("error", () => inner.destroy());
  });
  proxy.listen(port, "127.0.0.1");
  await once(proxy, "listening");
  onTestFinished(() => {
    proxy.closeAllConnections();
    proxy.close();
  });
}
