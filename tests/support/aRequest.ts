import { httpError, type HttpError } from "@boothward/shared-types";

export type Asking = {
  readonly method?: string;
  readonly body?: unknown;
  readonly headers?: Readonly<Record<string, string>>;
};

/** What came back: `no` where it is the dashboard's way of saying no. */
export type Answered = {
  readonly status: number;
  readonly body: unknown;
  readonly no: HttpError | null;
  readonly headers: Headers;
};

/** Asks a dashboard something over HTTP, as it stands: no cookie, no Origin but those given. */
export async function request(url: string, path: string, asking: Asking = {}): Promise<Answered> {
  const { method = "GET", body, headers = {} } = asking;
  const text = typeof body === "string" ? body : JSON.stringify(body);
  const response = await fetch(new URL(path, url), {
    method,
    headers: { "content-type": "application/json", ...headers },
    ...(body === undefined ? {} : { body: text }),
  });
  const answer: unknown = await response.json().catch(() => null);
  const no = httpError.safeParse(answer);
  return {
    ...{ status: response.status, body: answer, headers: response.headers },
    no: no.success ? no.data : null,
  };
}
