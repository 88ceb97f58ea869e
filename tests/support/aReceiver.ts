import { execFileSync } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { createServer as createHttp, type IncomingHttpHeaders, type ServerResponse } from "node:http";
import { createServer as createHttps } from "node:https";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import { findTool } from "./findTool.ts";
import { scratchFolder } from "./scratchFolder.ts";

/** A call as it came in. */
export type ReceivedCall = {
  readonly method: string;
  readonly path: string;
  readonly headers: IncomingHttpHeaders;
  readonly body: Buffer;
};

/** What a receiver answers: a status, a whole answer, nothing at all, or an answer without an end. */
export type Answering =
  number | { readonly status: number; readonly headers: Record<string, string> } | "nothing" | "endless";

export type AReceiver = {
  readonly url: string;
  readonly calls: readonly ReceivedCall[];
  /** From now on it answers so. */
  answer(answering: Answering): void;
};

export type Certificate = { readonly key: string; readonly cert: string };

/** A self-made certificate for localhost and 127.0.0.1, by openssl. */
export function aCertificate(): Certificate {
  const folder = scratchFolder();
  const [key, cert] = [join(folder, "key.pem"), join(folder, "cert.pem")];
  const curve = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1"];
  const names = ["-subj", "/CN=localhost", "-addext", "subjectAltName=DNS:localhost,IP:127.0.0.1"];
  const args = ["req", "-x509", ...curve, "-nodes", "-days", "2", ...names, "-keyout", key, "-out", cert];
  execFileSync(findTool("openssl") ?? "openssl", args, { stdio: "ignore" });
  return { key: readFileSync(key, "utf8"), cert: readFileSync(cert, "utf8") };
}

/** An HTTP server on this machine that keeps what it is sent; closed when the test has finished. */
export async function aReceiver(
  first: Answering = 201,
  certificate: Certificate | null = null,
): Promise<AReceiver> {
  const calls: ReceivedCall[] = [];
  let answering = first;
  const listener: Parameters<typeof createHttp>[1] = (request, response) => {
    const parts: Buffer[] = [];
    request.on("data", (part: Buffer) => parts.push(part));
    request.on("end", () => {
      const { method = "", url: path = "", headers } = request;
      calls.push({ method, path, headers, body: Buffer.concat(parts) });
      respond(response, answering);
    });
  };
  const server = certificate === null ? createHttp(listener) : createHttps(certificate, listener);
  server.listen(0, "127.0.0.1");
  await once(server, "listening");
  onTestFinished(() => {
    server.closeAllConnections();
    server.close();
  });
  const { port } = server.address() as AddressInfo;
  const scheme = certificate === null ? "http" : "https";
  return { url: `${scheme}://127.0.0.1:${port}`, calls, answer: (next) => void (answering = next) };
}

function respond(response: ServerResponse, answering: Answering): void {
  if (answering === "nothing") return;
  if (answering === "endless") {
    response.writeHead(201);
    const pour = (): void => {
      while (!response.destroyed && response.write(Buffer.alloc(64 * 1024)));
    };
    response.on("drain", pour);
    response.on("error", () => undefined);
    return pour();
  }
  const { status, headers } = typeof answering === "number" ? { status: answering, headers: {} } : answering;
  response.writeHead(status, headers);
  response.end("thank you");
}
