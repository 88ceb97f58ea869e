import type { FaultWord } from "@boothward/shared-types";

/** Why a call brought nothing; `status` is IPP's own code where the printer answered with one. */
export type IppFault = {
  readonly fault: FaultWord;
  readonly detail: string;
  readonly status: number | null;
};

/** Status codes that the source acts on. **Source:** RFC 8011 appendix B.1, RFC 3995 section 10. */
export const ippStatus = {
  lastSuccess: 0x00ff,
  notFound: 0x0406,
  operationNotSupported: 0x0501,
} as const;

/** Words for IPP's codes; a code that is not named is `unreadable` from 0x0500 on, else `refused`. */
const statusFaults: ReadonlyMap<number, FaultWord> = new Map([
  [ippStatus.notFound, "notFound"],
  [0x0407, "notFound"], // gone
  [0x040b, "unsupported"], // attributes or values not supported
  [0x0501, "unsupported"], // operation not supported
  [0x0503, "unsupported"], // version not supported
  [0x0502, "unreachable"], // service unavailable
  [0x0505, "unreachable"], // temporary error
  [0x0507, "unreachable"], // busy
]);

/** The fault in an IPP status code, or null if the call succeeded. */
export function statusFault(status: number, message: string | null): IppFault | null {
  if (status <= ippStatus.lastSuccess) return null;
  const fault = statusFaults.get(status) ?? (status >= 0x0500 ? "unreadable" : "refused");
  const code = `IPP status 0x${status.toString(16).padStart(4, "0")}`;
  return { fault, detail: message === null ? code : `${code}: ${message}`, status };
}

/** The fault in an HTTP status. **Source:** RFC 8010 section 3.4.3 and 4 (401, 403, 404, 426). */
export function httpFault(httpStatus: number): IppFault | null {
  if (httpStatus === 200) return null;
  const detail = `HTTP status ${httpStatus}`;
  switch (httpStatus) {
    case 401:
    case 403:
      return { fault: "refused", detail: `${detail}: the queue wants a signed-in user`, status: null };
    case 404:
      return { fault: "notFound", detail: `${detail}: no queue under this path`, status: null };
    case 426:
      return { fault: "refused", detail: `${detail}: the queue wants ipps instead of ipp`, status: null };
    default:
      return { fault: "unreadable", detail, status: null };
  }
}

const socketFaults: Readonly<Record<string, string>> = {
  ECONNREFUSED: "nothing listens there",
  ECONNRESET: "the connection was cut",
  EPIPE: "the connection was cut",
  ENOTFOUND: "no computer of this name",
  EAI_AGAIN: "names cannot be looked up now",
  EHOSTUNREACH: "no way to this computer",
  ENETUNREACH: "no network",
  ETIMEDOUT: "the computer does not answer",
};

/** The fault in an error of the socket, of TLS or of Node's HTTP parser. */
export function socketFault(error: NodeJS.ErrnoException): IppFault {
  const { code = "", message } = error;
  const known = socketFaults[code];
  if (known !== undefined) return { fault: "unreachable", detail: `${code}: ${known}`, status: null };
  if (code.startsWith("HPE_")) return { fault: "unreadable", detail: `not HTTP: ${message}`, status: null };
  if (code.includes("CERT") || code.includes("SIGNATURE") || code.includes("ALTNAME")) {
    const detail = `${code}: the certificate is not trusted (setting: trustAnyCertificate)`;
    return { fault: "refused", detail, status: null };
  }
  return { fault: "unreachable", detail: `${code} ${message}`.trim(), status: null };
}
