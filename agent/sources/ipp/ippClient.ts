import * as http from "node:http";
import * as https from "node:https";
import { textOf, uri } from "./attributes.ts";
import { decodeIpp } from "./decodeIpp.ts";
import { encodeIpp } from "./encodeIpp.ts";
import type { IppFault } from "./ippFault.ts";
import { httpFault, socketFault, statusFault } from "./ippFault.ts";
import type { IppAttribute, IppGroup, IppMessage } from "./ippMessage.ts";
import { groupTags } from "./ippMessage.ts";

export type IppPeer = {
  readonly uri: string;
  readonly trustAnyCertificate: boolean;
  readonly timeoutMs: number;
};

export type IppClient = {
  /** Sends one operation and waits for its reply; never rejects. */
  call(operation: number, more?: IppRequest): Promise<IppAnswer>;
  /** Cuts what is under way. */
  close(): void;
};

/** Beside charset, language, printer-uri and user, which every request carries. */
export type IppRequest = {
  readonly operation?: readonly IppAttribute[];
  readonly groups?: readonly IppGroup[];
};

export type IppAnswer = { readonly message: IppMessage } | IppFault;

/** A list of 500 jobs with twelve attributes is about 150 kB. */
const mostReplyBytes = 4 * 1024 * 1024;

/**
 * A client of one print queue over HTTP or HTTPS with connections kept open.
 *
 * **Source:** RFC 8010 section 4 (transport), RFC 3510 and RFC 7472 (ipp and ipps: port 631).
 */
export function ippClient(peer: IppPeer): IppClient {
  const target = httpTarget(peer.uri);
  const isTls = target.protocol === "https:";
  const options = { keepAlive: true, maxSockets: 2 };
  const agent = isTls
    ? new https.Agent({ ...options, rejectUnauthorized: !peer.trustAnyCertificate })
    : new http.Agent(options);
  const transport: Transport = {
    send: isTls ? https.request : http.request,
    agent,
    target,
    underWay: new Set(),
    isClosed: false,
  };
  let requestId = 0;

  async function call(operation: number, more: IppRequest = {}): Promise<IppAnswer> {
    requestId = (requestId % 0x7fffffff) + 1;
    const head = [...charset, uri("printer-uri", printerUri(peer.uri)), user, ...(more.operation ?? [])];
    const groups = [{ tag: groupTags.operation, attributes: head }, ...(more.groups ?? [])];
    const version = { major: 1, minor: 1 };
    const body = encodeIpp({ version, code: operation, requestId, groups, data: new Uint8Array() });
    const reply = await post(transport, body, peer.timeoutMs);
    return "fault" in reply ? reply : readReply(reply.body, requestId);
  }

  return {
    call,
    close() {
      transport.isClosed = true;
      for (const request of transport.underWay) request.destroy();
      agent.destroy();
    },
  };
}

function readReply(body: Buffer, requestId: number): IppAnswer {
  const decoded = decodeIpp(body);
  if ("malformed" in decoded) return unreadable(`the reply is not IPP: ${decoded.malformed}`);
  const { message } = decoded;
  const words = textOf(message.groups[0], "status-message");
  const fault = statusFault(message.code, words);
  if (fault) return fault;
  if (message.requestId !== requestId) {
    return unreadable(`the reply is to request ${message.requestId}, not to ${requestId}`);
  }
  return { message };
}

type Transport = {
  readonly send: typeof http.request;
  readonly agent: http.Agent;
  readonly target: URL;
  readonly underWay: Set<http.ClientRequest>;
  isClosed: boolean;
};
type Reply = { readonly body: Buffer } | IppFault;

/** Posts once, and once more if a connection kept open turns out to be dead: the print server was restarted. */
async function post(transport: Transport, body: Buffer, timeoutMs: number): Promise<Reply> {
  const first = await postOnce(transport, body, timeoutMs);
  return "isStale" in first && !transport.isClosed ? await postOnce(transport, body, timeoutMs) : first;
}

function postOnce(
  transport: Transport,
  body: Buffer,
  timeoutMs: number,
): Promise<Reply | (IppFault & { isStale: true })> {
  return new Promise((resolve) => {
    const request = transport.send(transport.target, {
      method: "POST",
      agent: transport.agent,
      headers: { "Content-Type": "application/ipp", "Content-Length": body.length },
    });
    const deadline = setTimeout(() => {
      resolve({ fault: "timeout", detail: `no whole answer within ${timeoutMs} ms`, status: null });
      request.destroy();
    }, timeoutMs);
    transport.underWay.add(request);
    request.on("close", () => {
      clearTimeout(deadline);
      transport.underWay.delete(request);
    });
    request.on("error", (error: NodeJS.ErrnoException) => {
      const isStale = request.reusedSocket && (error.code === "ECONNRESET" || error.code === "EPIPE");
      resolve(isStale ? { ...socketFault(error), isStale } : socketFault(error));
    });
    request.on("response", (response) => {
      const fault = httpFault(response.statusCode ?? 0);
      if (fault) {
        resolve(fault);
        response.resume();
      } else collect(response, resolve);
    });
    request.end(body);
  });
}

function collect(response: http.IncomingMessage, resolve: (reply: Reply) => void): void {
  const chunks: Buffer[] = [];
  let length = 0;
  response.on("data", (chunk: Buffer) => {
    length += chunk.length;
    chunks.push(chunk);
    if (length <= mostReplyBytes) return;
    resolve(unreadable(`the reply is over ${mostReplyBytes} bytes`));
    response.destroy();
  });
  response.on("error", (error) => resolve(socketFault(error)));
  response.on("end", () => resolve({ body: Buffer.concat(chunks) }));
}

function unreadable(detail: string): IppFault {
  return { fault: "unreadable", detail, status: null };
}

function httpTarget(queueUri: string): URL {
  const url = new URL(queueUri.replace(/^ipp/, "http"));
  const isIpp = queueUri.startsWith("ipp");
  if (isIpp && new URL(queueUri).port === "") url.port = "631";
  return url;
}

/** A printer names itself with an ipp address, also to those who come over http. */
function printerUri(queueUri: string): string {
  return queueUri.replace(/^http/, "ipp");
}

const charset: readonly IppAttribute[] = [
  { name: "attributes-charset", values: [{ syntax: "charset", text: "utf-8" }] },
  { name: "attributes-natural-language", values: [{ syntax: "naturalLanguage", text: "en" }] },
];
const user: IppAttribute = { name: "requesting-user-name", values: [{ syntax: "name", text: "boothward" }] };
