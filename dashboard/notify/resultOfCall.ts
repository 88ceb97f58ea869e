import { DateTime } from "luxon";
import type { Called } from "./callOut.ts";
import type { SendResult } from "./channel.ts";

/** A longer wait than this is as good as a no. */
const longestRetryMs = 3_600_000;

const faultWords: Record<Extract<Called, { fault: string }>["fault"], string> = {
  timeout: "it did not answer in time",
  unreachable: "it cannot be reached",
  badCertificate: "its certificate is not valid",
  unreadable: "its answer cannot be read",
  ownNetwork: "it leads to this machine or its own network, which may not be called",
};

/**
 * What an HTTP call says of the notice: 2xx took it; 408, 425, 429 and 5xx may take it later, and so may whoever
 * cannot be reached; a redirect is not followed. `lasting` says what the other statuses mean.
 */
export function resultOfCall(
  called: Called,
  atMs: number,
  lasting: (status: number) => "refused" | "retryable" | "gone",
): SendResult {
  if ("fault" in called) {
    const said = faultWords[called.fault];
    if (called.fault === "ownNetwork") return { result: "refused", reason: said };
    return { result: "retryable", retryInMs: null, said };
  }
  const { status, retryAfter } = called;
  if (status >= 200 && status < 300) return { result: "sent" };
  const said = `it answered ${status}`;
  if (status >= 300 && status < 400)
    return { result: "refused", reason: `${said}, and redirects are not followed` };
  const isForNow = status >= 500 || [408, 425, 429].includes(status);
  const result = isForNow ? "retryable" : lasting(status);
  return result === "retryable"
    ? { result, retryInMs: retryAfterMs(retryAfter, atMs), said }
    : { result, reason: said };
}

/** The wait that a Retry-After header asks for, seconds or a date (RFC 9110 section 10.2.3); null: it asks for none. */
export function retryAfterMs(header: string | null, atMs: number): number | null {
  if (header === null) return null;
  const text = header.trim();
  const waitMs = /^\d+$/.test(text) ? Number(text) * 1_000 : DateTime.fromHTTP(text).toMillis() - atMs;
  if (!Number.isFinite(waitMs)) return null;
  return Math.min(longestRetryMs, Math.max(0, waitMs));
}
