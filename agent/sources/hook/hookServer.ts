import { createServer } from "node:http";
import type { IncomingMessage, Server, ServerResponse } from "node:http";
import type { HookResult } from "./hookBook.ts";
import type { HookCall } from "./hookCalls.ts";
import { hookPaths, readHookCall } from "./hookCalls.ts";
import { refusalOf } from "./hookGuard.ts";

/** A call is a few short fields. */
const mostBodyBytes = 4_096;
/** What is too long is read on to here, so that whoever sends it gets its answer; then the line is cut. */
const mostReadBytes = 1_048_576;
const mostHeaderBytes = 8_192;
const timeoutMs = 10_000;

type Answer = {
  readonly status: number;
  readonly body: Readonly<Record<string, unknown>>;
  readonly headers?: Readonly<Record<string, string>>;
};

/**
 * The HTTP side of the calls: POST with JSON, or GET with the same fields in the address. Answers 200 when the
 * fact is durable, 4xx with the field that is wrong, 503 when it could not be kept and should be tried again.
 */
export function hookServer(
  token: string | undefined,
  enter: (call: HookCall) => Promise<HookResult>,
): Server {
  const server = createServer(
    { maxHeaderSize: mostHeaderBytes, requestTimeout: timeoutMs, headersTimeout: timeoutMs },
    (request, response) => {
      answerTo(request, token, enter).then(
        (answer) => send(response, answer),
        // Whoever called hung up before it had said all.
        () => response.destroy(),
      );
    },
  );
  server.maxConnections = 50;
  return server;
}

async function answerTo(
  request: IncomingMessage,
  wanted: string | undefined,
  enter: (call: HookCall) => Promise<HookResult>,
): Promise<Answer> {
  const { pathname, searchParams } = addressOf(request);
  const given = searchParams.get("token") ?? undefined;
  const refusal = refusalOf(request.headers, { wanted, given });
  if (refusal) return refuse(refusal.status, refusal.error);
  if (!hookPaths.includes(pathname))
    return refuse(404, `there is no ${pathname.slice(0, 80)} here; there is ${hookPaths.join(", ")}`);
  const { method } = request;
  if (method !== "GET" && method !== "POST")
    return { ...refuse(405, `only GET and POST, got ${method}`), headers: { allow: "GET, POST" } };
  const fields = await readFields(request, searchParams);
  if ("status" in fields) return fields;
  const call = readHookCall(pathname, fields.fields);
  if ("mistake" in call) return refuse(400, call.mistake.error, call.mistake.field);
  const result = await enter(call);
  if (!result.isKept)
    return { ...refuse(503, `not kept: ${result.why}; call again`), headers: { "retry-after": "1" } };
  return { status: 200, body: { counted: result.counted, ...result.ids } };
}

/** Fields from the address, and on POST those of the body besides. */
async function readFields(
  request: IncomingMessage,
  query: URLSearchParams,
): Promise<{ readonly fields: unknown } | Answer> {
  query.delete("token");
  const names = [...query.keys()];
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) return refuse(400, `${twice} is there more than once`, twice);
  const fromAddress = Object.fromEntries(query);
  if (request.method === "GET") return { fields: fromAddress };
  const text = await readBody(request);
  if (text === null) return refuse(413, `the body must have at most ${mostBodyBytes} bytes`);
  if (text.trim() === "") return { fields: fromAddress };
  const type = request.headers["content-type"] ?? "";
  if (!/^application\/json\b/i.test(type))
    return refuse(415, `Content-Type must be application/json, got "${type.slice(0, 80)}"`);
  const json = parseJson(text);
  if (typeof json !== "object" || json === null || Array.isArray(json))
    return refuse(400, "the body must be one JSON object", "(the body)");
  const both = names.find((name) => Object.hasOwn(json, name));
  if (both !== undefined) return refuse(400, `${both} is in the address and in the body`, both);
  return { fields: { ...fromAddress, ...json } };
}

/** The body as text; null if it is too long. Throws when it has no end. */
async function readBody(request: IncomingMessage): Promise<string | null> {
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    bytes += part.length;
    if (bytes <= mostBodyBytes) parts.push(part);
    if (bytes > mostReadBytes) throw new RangeError(`a body of more than ${mostReadBytes} bytes`);
  }
  return bytes > mostBodyBytes ? null : Buffer.concat(parts).toString("utf8");
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

function addressOf({ url = "/" }: IncomingMessage): URL {
  const address = `http://127.0.0.1${url.startsWith("/") ? url : "/"}`;
  return new URL(URL.canParse(address) ? address : "http://127.0.0.1/");
}

function refuse(status: number, error: string, field?: string): Answer {
  return { status, body: field === undefined ? { error } : { error, field } };
}

function send(response: ServerResponse, { status, body, headers = {} }: Answer): void {
  const authenticate: Record<string, string> = status === 401 ? { "www-authenticate": "Bearer" } : {};
  response.writeHead(status, {
    "content-type": "application/json; charset=utf-8",
    "cache-control": "no-store",
    "x-content-type-options": "nosniff",
    ...authenticate,
    ...headers,
  });
  response.end(`${JSON.stringify(body)}\n`);
}
