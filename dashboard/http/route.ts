import type { Owner } from "../store/accounts.ts";
import { notSignedIn, notYours, type Answer } from "./answer.ts";
import { mayAct, type Action, type Signed } from "./roles.ts";

/** A request as a route sees it; `signed` is null without a sign-in that holds. */
export type Asked<Who = Signed | null> = {
  readonly params: Readonly<Record<string, string>>;
  /** The address's query, each name once. */
  readonly query: Readonly<Record<string, string>>;
  readonly body: unknown;
  readonly signed: Who;
  /** What the person holds, as far as its browser says: "Chrome on Android". */
  readonly device: string;
  /** The name or address that was asked, without its port; null: the request named none. */
  readonly host: string | null;
  /** Whose request it is, as an address; null: the connection is gone. */
  readonly fromAddress: string | null;
  readonly atMs: number;
};

export type Route = {
  readonly method: "get" | "post" | "put" | "delete";
  readonly path: string;
  /** null: anybody's. */
  readonly action: Action | null;
  /** Failed tries are counted, and after too many of them refused for a while. */
  readonly isLimited: boolean;
  /** How long a body may be, where a form's length is not enough. */
  readonly mostBodyBytes?: number;
  handle(asked: Asked): Promise<Answer>;
};

type Handle<Who> = (asked: Asked<Who>) => Promise<Answer>;

/** A route for whoever may act so; 401 without a sign-in, 403 for the other role. */
export function signedRoute(
  method: Route["method"],
  path: string,
  action: Action,
  handle: Handle<Signed>,
): Route {
  return {
    ...{ method, path, action, isLimited: false },
    async handle({ signed, ...asked }) {
      if (signed === null) return notSignedIn;
      return mayAct(signed, action) ? handle({ ...asked, signed }) : notYours;
    },
  };
}

/** A route for the owner alone. */
export function ownerRoute(
  method: Route["method"],
  path: string,
  action: Action,
  handle: Handle<Owner>,
): Route {
  return signedRoute(method, path, action, async ({ signed, ...asked }) =>
    signed.role === "owner" ? handle({ ...asked, signed }) : notYours,
  );
}

/** A route for anybody; `isLimited` where something can be guessed at. */
export function openRoute(
  method: Route["method"],
  path: string,
  isLimited: boolean,
  handle: Handle<Signed | null>,
): Route {
  return { ...{ method, path, isLimited, handle }, action: null };
}

/** A whole run sheet or ledger, as text in a field of the body. */
const mostTextBytes = 8 * 1024 * 1024;

/** The same route for a body that holds a file. */
export function takesFile(route: Route, mostBodyBytes = mostTextBytes): Route {
  return { ...route, mostBodyBytes };
}
