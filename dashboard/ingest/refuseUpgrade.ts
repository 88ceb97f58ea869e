import { STATUS_CODES } from "node:http";
import type { Duplex } from "node:stream";
import type { HttpError } from "@boothward/shared-types";

/** Answers an upgrade with an HTTP error and hangs up. */
export function refuseUpgrade(
  socket: Duplex,
  { status, error, sentence }: { status: number; error: string; sentence: string },
): void {
  const answer: HttpError = { error, sentence, field: null };
  const body = JSON.stringify(answer);
  socket.on("error", () => socket.destroy());
  socket.end(
    [
      `HTTP/1.1 ${status} ${STATUS_CODES[status] ?? ""}`,
      "Connection: close",
      "Content-Type: application/json; charset=utf-8",
      `Content-Length: ${Buffer.byteLength(body)}`,
      "",
      body,
    ].join("\r\n"),
  );
}
