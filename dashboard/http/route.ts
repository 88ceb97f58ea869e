import type { Signed } from "../store/accounts.ts";
import { notSignedIn, type Answer } from "./answer.ts";

/** A request as a route sees it; `signed` is null without a sign-in that holds. */
export type Asked<Who = Signed | null> = {
  readonly params: Readonly<Record<string, string>>;
  readonly body: unknown;
  readonly signed: Who;
  readonly atMs: number;
};

export type Route = {
  readonly method: "get" | "post" | "put" | "delete";
  readonly path: string;
  /** Failed tries are counted, and after too many of them refused for a while. */
  readonly isLimited: boolean;
  handle(asked: Asked): Promise<Answer>;
};

/** A route for the owner: refused with 401 without a sign-in. */
export function ownerRoute(
  method: Route["method"],
  path: string,
  handle: (asked: Asked<Signed>) => Promise<Answer>,
): Route {
  return {
    ...{ method, path, isLimited: false },
    handle: (asked) =>
      asked.signed === null ? Promise.resolve(notSignedIn) : handle({ ...asked, signed: asked.signed }),
  };
}

/** A route for anybody; `isLimited` where something can be guessed at. */
export function openRoute(
  method: Route["method"],
  path: string,
  isLimited: boolean,
  handle: (asked: Asked) => Promise<Answer>,
): Route {
  return { method, path, isLimited, handle };
}
