import { createReadStream, existsSync } from "node:fs";
import type { IncomingMessage, ServerResponse } from "node:http";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { WebSocketServer } from "ws";
import type { Booking } from "@boothward/shared-types";
import type { BoothEvening, BoothView, LiveFrame } from "@boothward/shared-types/view";

/** A booth as Set-up lists it. */
export type BoothEntry = {
  boothId: string;
  name: string;
  isTrailer: boolean;
  kitSheets: number;
  limitC: number;
  agent: { agentId: string; hostName: string; pairedAtMs: number; isLinked: boolean } | null;
};

/** What a stub says; a test changes it at any time. */
export type StubState = {
  nowMs: number;
  booths: readonly BoothView[];
  entries: readonly BoothEntry[];
  bookings: readonly Booking[];
  evenings: readonly BoothEvening[];
  signedIn: { name: string } | null;
  isFirstRun: boolean;
};

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
  close(): Promise<void>;
};

const kinds: Record<string, string> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".woff2": "font/woff2",
};

/** The strictest policy that the pages must live under. */
const policy =
  "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'; connect-src 'self'; " +
  "base-uri 'none'; form-action 'self'; frame-ancestors 'none'";

/** Serves the built pages of `webDir` and speaks their side of /api and /live from a state that tests set. */
export async function openStubDashboard(webDir: string, state: StubState): Promise<StubDashboard> {
  const asked: StubDashboard["asked"] = [];
  let refusal: Parameters<StubDashboard["refuseNext"]>[0] | null = null;
  let isShut = false;

  const server = createServer((request, response) => {
    if (isShut) {
      request.socket.destroy();
      return;
    }
    const address = (request.url ?? "/").split("?")[0] ?? "/";
    if (!address.startsWith("/api/")) {
      serveFile(webDir, address, response);
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
      page.send(JSON.stringify({ kind: "all", nowMs: state.nowMs, booths: state.booths } satisfies LiveFrame));
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
    close: async () => {
      for (const page of sockets.clients) page.terminate();
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}

function serveFile(webDir: string, address: string, response: ServerResponse): void {
  const wanted = join(webDir, address);
  const isFile = extname(address) !== "" && wanted.startsWith(webDir) && existsSync(wanted);
  const path = isFile ? wanted : join(webDir, "index.html");
  response.writeHead(200, {
    "content-type": kinds[extname(path)] ?? "application/octet-stream",
    "content-security-policy": policy,
  });
  createReadStream(path).pipe(response);
}

function answerJson(response: ServerResponse, status: number, answer: unknown): void {
  response.writeHead(status, { "content-type": "application/json" });
  response.end(JSON.stringify(answer));
}

async function readBody(request: IncomingMessage): Promise<unknown> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  const text = Buffer.concat(parts).toString("utf8");
  return text === "" ? null : (JSON.parse(text) as unknown);
}

const refusedUnsigned = { error: "notSignedIn", sentence: "Please sign in.", field: null };

function answerApi(
  state: StubState,
  method: string,
  address: string,
  body: unknown,
  response: ServerResponse,
): void {
  const say = (answer: unknown) => answerJson(response, 200, answer);
  if (address === "/api/me") return say({ isFirstRun: state.isFirstRun, signedIn: state.signedIn });
  if (/^\/api\/(first-run|sign-in|sign-in-once)$/.test(address)) {
    state.signedIn = { name: "Ama Quill" };
    state.isFirstRun = false;
    return say({});
  }
  if (state.signedIn === null) return answerJson(response, 401, refusedUnsigned);
  if (address === "/api/sign-out") {
    state.signedIn = null;
    return say({});
  }
  if (address.endsWith("/pairing-codes"))
    return say({ code: "QK7 M2D", expiresAtMs: state.nowMs + 15 * 60_000 });
  if (address === "/api/sign-in-links")
    return say({ path: "/sign-in#once=4f7Kq2", expiresAtMs: state.nowMs + 15 * 60_000 });
  const evening = /^\/api\/booths\/([^/]+)\/evening$/.exec(address);
  if (evening !== null)
    return say(
      state.evenings.find((each) => each.boothId === evening[1]) ?? {
        boothId: evening[1],
        fromAtMs: state.nowMs,
        toAtMs: state.nowMs,
        inside: [],
        quarters: [],
        stops: [],
      },
    );
  if (address === "/api/booths" && method === "POST") {
    const entry = { boothId: `new-${state.entries.length}`, agent: null, ...(body as Omit<BoothEntry, "boothId">) };
    state.entries = [...state.entries, entry];
    return say({ boothId: entry.boothId });
  }
  if (address === "/api/booths") return say({ booths: state.entries });
  if (address === "/api/bookings" && method === "POST") {
    const booking = { bookingId: `new-${state.bookings.length}`, ...(body as Omit<Booking, "bookingId">) };
    state.bookings = [...state.bookings, booking];
    return say({ bookingId: booking.bookingId });
  }
  if (address === "/api/bookings") return say({ bookings: state.bookings });
  return say({});
}
