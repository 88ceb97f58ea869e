import { once } from "node:events";
import type { IncomingMessage } from "node:http";
import { request } from "node:http";
import { onTestFinished } from "vitest";
import { hookSource } from "../../agent/sources/hook/hookSource.ts";
import { hookSourceConfig } from "../../agent/sources/hook/hookSourceConfig.ts";
import { aHandClock } from "./aHandClock.ts";
import { freePort } from "./freePort.ts";
import { scratchFolder } from "./scratchFolder.ts";
import { until } from "./until.ts";
import type { WatchedSource } from "./watchSource.ts";
import { watchSource } from "./watchSource.ts";

export type Said = { readonly status: number; readonly body: Record<string, unknown> };
type More = { readonly headers?: Record<string, string>; readonly body?: string };

/** Calls as a booth program would, with any headers. */
export async function callHook(
  port: number,
  method: string,
  path: string,
  { headers = {}, body }: More = {},
): Promise<Said> {
  const asked = request({ host: "127.0.0.1", port, method, path, headers, agent: false });
  asked.end(body);
  const [response] = (await once(asked, "response")) as [IncomingMessage];
  let text = "";
  for await (const part of response as AsyncIterable<Buffer>) text += part.toString("utf8");
  return { status: response.statusCode ?? 0, body: JSON.parse(text) as Record<string, unknown> };
}

export type AHook = {
  readonly port: number;
  readonly watched: WatchedSource;
  readonly hand: ReturnType<typeof aHandClock>;
  readonly get: (path: string, more?: More) => Promise<Said>;
  readonly post: (path: string, fields?: unknown, more?: More) => Promise<Said>;
};

/** A hook that listens on a free port, and a booth program that calls it. */
export async function aHook(
  options: { settings?: object; folder?: string; isKept?: () => boolean; hand?: AHook["hand"] } = {},
): Promise<AHook> {
  const port = await freePort();
  const hand = options.hand ?? aHandClock();
  const config = hookSourceConfig.parse({ kind: "hook", port, ...options.settings });
  const source = hookSource(config, { clock: hand.clock, stateFolder: options.folder ?? scratchFolder() });
  const watched = await watchSource(source, options.isKept);
  onTestFinished(() => watched.close());
  await until(() => watched.answers.length + watched.refused.length > 0, "it listens");
  return {
    port,
    watched,
    hand,
    get: (path, more) => callHook(port, "GET", path, more),
    post: (path, fields, more = {}) =>
      callHook(port, "POST", path, {
        body: fields === undefined ? "" : JSON.stringify(fields),
        ...more,
        headers: { "content-type": "application/json", ...more.headers },
      }),
  };
}
