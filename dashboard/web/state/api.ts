import { role } from "@boothward/shared-types/words";
import * as z from "zod/mini";
import { failed } from "../words/en/frame.ts";
import "./zodSettings.ts";

/** How the dashboard says no; `field` names the part of a form that is wrong. */
export const refusal = z.object({
  error: z.string(),
  sentence: z.string(),
  field: z.nullable(z.string()),
});
export type Refusal = z.infer<typeof refusal>;

/** What came of a call: the answer, or why not. Never thrown. */
export type Answer<T> = { value: T } | { refusal: Refusal };

/** Who is signed in, and whether the dashboard still waits for its owner. */
export const whoAmI = z.object({
  isFirstRun: z.boolean(),
  signedIn: z.nullable(z.object({ name: z.string(), role })),
});

export type Method = "GET" | "POST" | "PUT" | "DELETE";

export type Api = {
  call<T>(method: Method, address: string, shape: z.ZodMiniType<T>, body?: unknown): Promise<Answer<T>>;
};

/** For calls whose answer says nothing but that it was done. */
export const done = z.unknown();

/**
 * The HTTP side of the dashboard. `onSignedOut` runs when a call is refused for want of a sign-in. Answers are
 * parsed with the caller's shape; one that does not fit is said as such.
 */
export function makeApi(send: typeof fetch, onSignedOut: () => void): Api {
  return {
    async call(method, address, shape, body) {
      const response = await send(address, {
        method,
        credentials: "same-origin",
        headers: { accept: "application/json", "content-type": "application/json" },
        ...(body === undefined ? {} : { body: JSON.stringify(body) }),
      }).catch(() => null);
      if (response === null) return no("unreachable", failed.unreachable);
      const answer: unknown = await response.json().catch(() => null);
      if (response.ok) {
        const read = shape.safeParse(answer);
        return read.success ? { value: read.data } : no("unreadable", failed.unreadable);
      }
      const said = refusal.safeParse(answer);
      if (!said.success) return no("unreadable", failed.unreadable);
      // A wrong password is refused with 401 as well; that is the form's to say.
      if (said.data.error === "notSignedIn") onSignedOut();
      return { refusal: said.data };
    },
  };
}

function no(error: string, sentence: string): { refusal: Refusal } {
  return { refusal: { error, sentence, field: null } };
}
