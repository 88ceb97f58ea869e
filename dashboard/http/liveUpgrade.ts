import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import { WebSocketServer } from "ws";
import { refuseUpgrade } from "../ingest/refuseUpgrade.ts";
import { secretHash } from "../store/secretHash.ts";
import { isOwnOrigin } from "./isOwnOrigin.ts";
import { signedIn } from "./signedIn.ts";
import { tokenIn } from "./signInCookie.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** A page sends nothing but what the protocol of the socket itself needs. */
const mostBytes = 1024;
/** Views are text with many repeated words; below this packing costs more than it saves. */
const packFromBytes = 1024;

const foreignOrigin = {
  status: 403,
  error: "foreignOrigin",
  sentence: "The live socket is for this dashboard's own pages.",
};
const notSignedIn = { status: 401, error: "notSignedIn", sentence: "Please sign in first." };

/** Takes over upgrades to `/live`: only for pages of this origin that are signed in. */
export function liveUpgrade(with_: Pick<HttpSurroundings, "store" | "live" | "clock" | "log" | "origin">) {
  const { store, live, clock, log, origin } = with_;
  const server = new WebSocketServer({
    noServer: true,
    maxPayload: mostBytes,
    perMessageDeflate: { threshold: packFromBytes },
  });

  async function admit(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    const { headers } = request;
    if (!isOwnOrigin(headers.origin, headers.host, origin)) {
      log.warn({ origin: headers.origin ?? null }, "live socket refused: not of this origin");
      return refuseUpgrade(socket, foreignOrigin);
    }
    const token = tokenIn(headers.cookie);
    const atMs = clock().wallMs;
    const signed = token === null ? null : await signedIn(store, secretHash(token), atMs);
    if (signed === null) return refuseUpgrade(socket, notSignedIn);
    server.handleUpgrade(request, socket, head, (page) => live.add(page, signed));
  }

  return (request: IncomingMessage, socket: Duplex, head: Buffer): void => {
    admit(request, socket, head).catch((error: unknown) => {
      log.error({ err: error }, "a page could not be let in");
      socket.destroy();
    });
  };
}
