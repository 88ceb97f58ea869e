import { readdirSync, readFileSync } from "node:fs";
import type { IncomingMessage, ServerResponse } from "node:http";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { WebSocketServer } from "ws";
import type { LiveFrame } from "@boothward/shared-types/view";
import { answerApi, answerJson } from "./stubApi.ts";
import type { StubState } from "./stubApi.ts";

export type { StubState };

export type StubDashboard = {
  origin: string;
  state: StubState;
  /** What pages asked to be done, oldest first. */
  asked: { method: string; address: string; body: unknown }[];
  /** Refuses the next change with this. */
  refuseNext(refusal: { error: string; sentence: string; field: string | null }): void;
  send(frame: LiveFrame): void;
  /** Hangs up on every page, and lets none in until `letIn`. */
  cutPages(): void;
  letIn(): void;
  /** Serves another text at an address from now on, as after a new build; null: nothing. */
  replaceFile(address: string, change: (text: string) => string | null): void;
  close(): Promise<void>;
};

const kinds: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".webmanifest": "application/manifest+json",
  ".woff2": "font/woff2",
};

/** The strictest policy that the pages must live under. */
const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; connect-src 'self'; " +
  "manifest-src 'self'; worker-src 'self'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

/** Serves the built pages of `webDir` and speaks their side of /api and /live from a state that tests set. */
export async function openStubDashboard(webDir: string, state: StubState): Promise<StubDashboard> {
  const files = readPages(webDir);
  const asked: StubDashboard["asked"] = [];
  let refusal: Parameters<StubDashboard["refuseNext"]>[0] | null = null;
  let isShut = false;

  const server = createServer((request, response) => {
    if (isShut) {
      request.socket.destroy();
      return;
    }
    const address = (request.url ?? "/").split("?")[0] ?? "/";
    if (/^\/\w+\.(js|png)$/.test(address) && !files.has(address)) {
      response.writeHead(404).end();
      return;
    }
    if (!address.startsWith("/api/")) {
      serveFile(files, address, response);
      return;
    }
    void readBody(request).then((body) => {
      const method = request.method ?? "GET";
      if (method !== "GET") asked.push({ method, address, body });
      if (method !== "GET" && refusal !== null) {
        answerJson(response, 400, refusal);
        refusal = null;
      } else answerApi(state, method, address, body, response);
    });
  });
  const sockets = new WebSocketServer({ noServer: true });
  server.on("upgrade", (request, socket, head) => {
    if (isShut || state.signedIn === null) {
      socket.destroy();
      return;
    }
    sockets.handleUpgrade(request, socket, head, (page) => {
      page.send(
        JSON.stringify({ kind: "all", nowMs: state.nowMs, booths: [...state.booths] } satisfies LiveFrame),
      );
    });
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const place = server.address();
  if (place === null || typeof place === "string") throw new Error(`stub has no port: ${String(place)}`);
  return {
    origin: `http://127.0.0.1:${place.port}`,
    state,
    asked,
    refuseNext: (next) => (refusal = next),
    send: (frame) => {
      for (const page of sockets.clients) page.send(JSON.stringify(frame));
    },
    cutPages: () => {
      isShut = true;
      for (const page of sockets.clients) page.terminate();
    },
    letIn: () => (isShut = false),
    replaceFile: (address, change) => {
      const text = change(files.get(address)?.toString("utf8") ?? "");
      if (text === null) files.delete(address);
      else files.set(address, Buffer.from(text));
    },
    close: async () => {
      for (const page of sockets.clients) page.terminate();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

/** The built files by their address, read once, so that a build meanwhile does no harm. */
function readPages(webDir: string): Map<string, Buffer> {
  const names = readdirSync(webDir, { recursive: true, withFileTypes: true });
  const files = names.filter((entry) => entry.isFile() && kinds[extname(entry.name)] !== undefined);
  return new Map(
    files.map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return [path.slice(webDir.length), readFileSync(path)];
    }),
  );
}

function serveFile(files: ReadonlyMap<string, Buffer>, address: string, response: ServerResponse): void {
  const path = files.has(address) ? address : "/index.html";
  response.writeHead(200, {
    "content-type": kinds[extname(path)] ?? "application/octet-stream",
    "content-security-policy": policy,
  });
  response.end(files.get(path));
}

async function readBody(request: IncomingMessage): Promise<unknown> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  const text = Buffer.concat(parts).toString("utf8");
  return text === "" ? null : (JSON.parse(text) as unknown);
}
