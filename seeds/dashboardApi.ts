import { httpError } from "@boothward/shared-types";
import * as z from "zod";

/** The dashboard's HTTP side as one signed-in person uses it. */
export type DashboardApi = {
  /** For example http://127.0.0.1:8460 */
  readonly origin: string;
  /** The cookie header of this sign-in; empty before it. */
  cookie(): string;
  /** Throws an Error with the dashboard's own sentence when it says no. */
  get<T>(path: string, answer: z.ZodType<T>): Promise<T>;
  post<T>(path: string, body: unknown, answer: z.ZodType<T>): Promise<T>;
};

/** For answers of which nothing is used. */
export const anyAnswer = z.unknown();

/** A person's way in: keeps the cookies it is given. */
export function openApi(origin: string): DashboardApi {
  const cookies = new Map<string, string>();
  const cookie = (): string => [...cookies].map(([name, held]) => `${name}=${held}`).join("; ");
  const ask = async <T>(method: string, path: string, body: unknown, answer: z.ZodType<T>): Promise<T> => {
    const response = await fetch(new URL(path, origin), {
      method,
      headers: { "content-type": "application/json", cookie: cookie(), origin },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    for (const line of response.headers.getSetCookie()) keepCookie(cookies, line);
    const found = parseJson(await response.text());
    if (!response.ok) throw new Error(`${method} ${path}: ${String(response.status)}, ${noInWords(found)}`);
    const parsed = answer.safeParse(found);
    if (!parsed.success) throw new Error(`${method} ${path} gave ${z.prettifyError(parsed.error)}`);
    return parsed.data;
  };
  return {
    origin,
    cookie,
    get: (path, answer) => ask("GET", path, undefined, answer),
    post: (path, body, answer) => ask("POST", path, body, answer),
  };
}

function keepCookie(cookies: Map<string, string>, line: string): void {
  const [pair = ""] = line.split(";");
  const at = pair.indexOf("=");
  if (at > 0) cookies.set(pair.slice(0, at).trim(), pair.slice(at + 1).trim());
}

function parseJson(text: string): unknown {
  if (text === "") return null;
  try {
    return JSON.parse(text);
  } catch {
    return text;
  }
}

function noInWords(found: unknown): string {
  const no = httpError.safeParse(found);
  if (!no.success) return JSON.stringify(found).slice(0, 200);
  return no.data.sentence + (no.data.field === null ? "" : ` (${no.data.field})`);
}
