import { deliveryState, httpError, reachWay } from "@boothward/shared-types";
import * as z from "zod";
import type { TestAlertConfig } from "./config.ts";

export type TestAlertOptions = TestAlertConfig & {
  readonly password: string;
  readonly say: (line: string) => void;
  readonly pause: (ms: number) => Promise<void>;
};

const lookEveryMs = 500;

const begun = z.object({ noticeId: z.string() });
const looked = z.object({
  ended: z.string().nullable(),
  deliveries: z.array(
    z.object({
      way: reachWay,
      label: z.string(),
      state: deliveryState,
      lastSaid: z.string().nullable(),
      arrivedAtMs: z.number().nullable(),
    }),
  ),
});
type Delivery = z.infer<typeof looked>["deliveries"][number];

/**
 * Signs in to a running dashboard, has it send a test alert to its owner by every way there is, and says what came of
 * each. Gives the exit code: 0 when something was taken or arrived, 1 when nothing was, 2 when it could not be tried.
 */
export async function testAlert(options: TestAlertOptions): Promise<number> {
  try {
    return await tryAlert(options);
  } catch (error) {
    options.say(
      error instanceof NotTried ? error.message : `${options.url} cannot be reached: ${causeOf(error)}.`,
    );
    return 2;
  }
}

async function tryAlert({ url, name, password, wait, say, pause }: TestAlertOptions): Promise<number> {
  const signedIn = await ask(url, "/api/sign-in", null, { name, password });
  const cookie = signedIn.headers
    .getSetCookie()
    .map((line) => line.split(";")[0] ?? "")
    .join("; ");
  const { noticeId } = begun.parse(await (await ask(url, "/api/test-alert", cookie, {})).json());
  const look = async () => looked.parse(await (await ask(url, `/api/test-alert/${noticeId}`, cookie)).json());
  let seen = await look();
  for (let waitedMs = 0; waitedMs < wait * 1_000 && !isSettled(seen); waitedMs += lookEveryMs) {
    await pause(lookEveryMs);
    seen = await look();
  }
  if (seen.deliveries.length === 0) say("There is no way to reach you yet: choose one under Set-up.");
  for (const delivery of seen.deliveries) say(lineOf(delivery));
  await ask(url, "/api/sign-out", cookie, {});
  return seen.deliveries.some(isGood) ? 0 : 1;
}

/** Nothing more is to come: what a phone was sent has arrived, and the rest has been taken or has failed. */
function isSettled({ ended, deliveries }: z.infer<typeof looked>): boolean {
  if (deliveries.length === 0) return ended !== null;
  return deliveries.every(
    ({ way, state, arrivedAtMs }) =>
      arrivedAtMs !== null || (state !== "waiting" && !(way === "push" && state === "taken")),
  );
}

function isGood({ state, arrivedAtMs }: Delivery): boolean {
  return arrivedAtMs !== null || state === "taken";
}

function lineOf({ way, label, state, lastSaid, arrivedAtMs }: Delivery): string {
  const what =
    arrivedAtMs !== null
      ? "arrived"
      : state === "taken"
        ? "taken by its server; whether it arrived is not known"
        : `not taken${lastSaid === null ? " yet" : `: ${lastSaid}`}`;
  return `${way} (${label}): ${what}`;
}

/** The dashboard said no: its own sentence. */
class NotTried extends Error {}

async function ask(url: string, path: string, cookie: string | null, body?: unknown): Promise<Response> {
  const response = await fetch(new URL(path, url), {
    method: body === undefined ? "GET" : "POST",
    headers: { "content-type": "application/json", ...(cookie === null ? {} : { cookie }) },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
  if (response.ok) return response;
  const no = httpError.safeParse(await response.json().catch(() => null));
  throw new NotTried(no.success ? no.data.sentence : `${url} answered ${response.status}.`);
}

function causeOf(error: unknown): string {
  const cause = error instanceof Error && error.cause instanceof Error ? error.cause : error;
  return cause instanceof Error ? cause.message : String(cause);
}
