import { lookup } from "node:dns";
import { Agent as HttpAgent, request as requestHttp, type IncomingMessage } from "node:http";
import { Agent as HttpsAgent, request as requestHttps } from "node:https";
import { isIP, type LookupFunction } from "node:net";
import { ownNetwork } from "./ownNetwork.ts";

/** One HTTP call to the outside. */
export type Call = {
  readonly method: string;
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | Buffer | null;
};

/** What came of it: an answer with any status, or why there is none. */
export type Called =
  | { readonly status: number; readonly retryAfter: string | null }
  | { readonly fault: "timeout" | "unreachable" | "badCertificate" | "unreadable" | "ownNetwork" };

export type CallOut = (call: Call) => Promise<Called>;

export type CallOutOptions = {
  /** Whether an address of this machine or its network may be called. */
  readonly mayCallOwnNetwork: boolean;
  /** This machine's addresses. */
  readonly ownAddresses: () => readonly string[];
  /** A certificate to be trusted beside the well-known ones, PEM. */
  readonly trustedCa: string | null;
  /** An answer takes no longer, from the first packet to its head. */
  readonly mostMs: number;
};

/** What follows an answer's head is not used; so much of it is let in, so that the other side can end cleanly. */
const mostAnswerBytes = 64 * 1024;

const certificateCodes =
  /^(ERR_TLS_CERT|CERT_|DEPTH_ZERO|SELF_SIGNED|UNABLE_TO_(GET_ISSUER|VERIFY)|HOSTNAME_MISMATCH)/;

/**
 * Calls addresses that people have named: guarded against the own network when the name is looked up for the very
 * connection, limited in time and size, never following a redirect.
 */
export function openCallOut(options: CallOutOptions): CallOut {
  const isOwn = options.mayCallOwnNetwork ? () => false : ownNetwork(options.ownAddresses);
  const agents = agentsFor(options.trustedCa, guardedLookup(isOwn));
  return (call) => {
    const url = new URL(call.url);
    const host = url.hostname.replace(/^\[|\]$/g, "");
    if (isIP(host) !== 0 && isOwn(host)) return Promise.resolve({ fault: "ownNetwork" });
    return callOnce(url, call, agents, options.mostMs);
  };
}

type Agents = { readonly http: HttpAgent; readonly https: HttpsAgent };

function agentsFor(trustedCa: string | null, look: LookupFunction): Agents {
  const ca = trustedCa === null ? {} : { ca: trustedCa };
  return { http: new HttpAgent({ lookup: look }), https: new HttpsAgent({ lookup: look, ...ca }) };
}

function callOnce(url: URL, call: Call, agents: Agents, mostMs: number): Promise<Called> {
  const length = call.body === null ? {} : { "content-length": String(Buffer.byteLength(call.body)) };
  const asked = { method: call.method, headers: { ...call.headers, ...length } };
  const isHttps = url.protocol === "https:";
  return new Promise((resolve) => {
    const request = isHttps
      ? requestHttps(url, { ...asked, agent: agents.https })
      : requestHttp(url, { ...asked, agent: agents.http });
    const timer = setTimeout(() => {
      resolve({ fault: "timeout" });
      request.destroy();
    }, mostMs);
    request.on("close", () => clearTimeout(timer));
    request.on("error", (error) => resolve({ fault: faultOf(error) }));
    request.on("response", (response) => {
      const retryAfter = response.headers["retry-after"] ?? null;
      resolve({ status: response.statusCode ?? 0, retryAfter });
      drain(response);
    });
    request.end(call.body ?? undefined);
  });
}

function drain(response: IncomingMessage): void {
  let bytes = 0;
  response.on("error", () => undefined);
  response.on("data", (chunk: Buffer) => {
    bytes += chunk.length;
    if (bytes > mostAnswerBytes) response.destroy();
  });
}

/** Looks a name up and leaves out what leads to the own network, at the moment of connecting: names can change. */
function guardedLookup(isOwn: (address: string) => boolean): LookupFunction {
  return (hostname, options, callBack) => {
    lookup(hostname, { ...options, all: true }, (error, addresses) => {
      if (error !== null) return callBack(error, []);
      const allowed = addresses.filter(({ address }) => !isOwn(address));
      const [first] = allowed;
      if (first === undefined) return callBack(new OwnNetworkError(hostname), []);
      if (options.all === true) callBack(null, allowed);
      else callBack(null, first.address, first.family);
    });
  };
}

class OwnNetworkError extends Error {
  constructor(hostname: string) {
    super(`${hostname} leads to this machine or its network`);
    this.name = "OwnNetworkError";
  }
}

function faultOf(error: Error): Extract<Called, { fault: string }>["fault"] {
  if (error instanceof OwnNetworkError) return "ownNetwork";
  const code = String(Reflect.get(error, "code"));
  if (certificateCodes.test(code)) return "badCertificate";
  return code.startsWith("HPE_") || code.startsWith("ERR_SSL") ? "unreadable" : "unreachable";
}
