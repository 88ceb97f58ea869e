import { maxFrameBytes } from "@boothward/shared-types";
import { WebSocket } from "ws";
import type { OpenLinkSocket } from "./linkSocket.ts";

/** Frames shorter than this are not worth compressing. */
const compressFromBytes = 200;

/** A close reason is at most 123 bytes (RFC 6455 section 5.5). */
const maxReasonBytes = 123;

/** The address of the link of a dashboard: `https://a.example` gives `wss://a.example/link`. */
export function linkUrl(dashboard: string): string {
  const url = new URL(dashboard);
  url.protocol = url.protocol === "https:" ? "wss:" : "ws:";
  url.pathname = `${url.pathname.replace(/\/$/, "")}/link`;
  url.search = "";
  url.hash = "";
  return url.href;
}

/** Connects to a dashboard's `/link` with `Authorization: Bearer TOKEN` ([L1]). */
export const webSocketLink: OpenLinkSocket = ({ dashboard, token }, listener) => {
  const socket = new WebSocket(linkUrl(dashboard), {
    headers: { authorization: `Bearer ${token}` },
    maxPayload: maxFrameBytes,
    perMessageDeflate: { threshold: compressFromBytes },
    handshakeTimeout: 15_000,
  });
  let status: number | undefined;
  let words: string | undefined;
  socket.on("open", () => listener.opened());
  socket.on("message", (bytes: Buffer, isBinary) =>
    listener.text(isBinary ? "(binary)" : bytes.toString("utf8")),
  );
  socket.on("unexpected-response", (_, response) => {
    status = response.statusCode ?? 0;
    socket.terminate();
  });
  socket.on("error", (error) => {
    words ??= status === undefined ? errorWords(error) : undefined;
  });
  socket.on("close", (closeCode, reason) => {
    if (status !== undefined) listener.ended({ status, words: `HTTP status ${status}` });
    else listener.ended({ closeCode, words: reason.toString("utf8") || (words ?? "the connection broke") });
  });
  return {
    send: (text) => socket.send(text),
    close: (code, reason) => socket.close(code, clip(reason)),
    cut: () => socket.terminate(),
  };
};

/** Node gathers the errors of several addresses of one name and leaves the message empty. */
function errorWords(error: Error & { code?: string }): string {
  return error.message || error.code || error.name;
}

function clip(reason: string): string {
  let clipped = reason;
  while (Buffer.byteLength(clipped) > maxReasonBytes) clipped = clipped.slice(0, -1);
  return clipped;
}
