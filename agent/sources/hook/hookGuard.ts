import { createHash, timingSafeEqual } from "node:crypto";
import type { IncomingHttpHeaders } from "node:http";

/** Why a request is not listened to. */
export type Refusal = {
  readonly status: 401 | 403 | 421;
  readonly error: string;
};

const ownNames: ReadonlySet<string> = new Set(["127.0.0.1", "localhost"]);

/**
 * Why this request is refused whatever it says, or null. The listener is on the loopback address, so that it is
 * from this computer; what is kept out is a web page in a browser here.
 *
 * Another Host than our own comes from a name that was pointed at 127.0.0.1 (rebinding); Origin and
 * Sec-Fetch-Site say that a page of another site calls (**Source:** Fetch standard, and Fetch Metadata Request
 * Headers by W3C); a browser that fetches ahead has been asked by nobody.
 */
export function refusalOf(
  headers: IncomingHttpHeaders,
  token: { readonly wanted: string | undefined; readonly given: string | undefined },
): Refusal | null {
  const host = nameIn(headers.host);
  if (host === null || !ownNames.has(host))
    return { status: 421, error: `Host must be 127.0.0.1 or localhost, got "${headers.host ?? ""}"` };
  if (headers.origin !== undefined && headers.origin !== `http://${headers.host}`)
    return { status: 403, error: `a page of "${headers.origin}" may not call this` };
  const site = headers["sec-fetch-site"];
  if (site !== undefined && site !== "none" && site !== "same-origin")
    return {
      status: 403,
      error: `a page of another site may not call this (Sec-Fetch-Site is "${String(site)}")`,
    };
  if (`${String(headers["sec-purpose"])} ${String(headers["purpose"])}`.includes("prefetch"))
    return { status: 403, error: "fetching ahead is not a call" };
  if (token.wanted !== undefined && !isSameSecret(token.wanted, bearer(headers) ?? token.given))
    return {
      status: 401,
      error: "token is missing or wrong: give it as Authorization: Bearer, or as token=",
    };
  return null;
}

/** The host's name without its port. */
function nameIn(host: string | undefined): string | null {
  if (host === undefined || !/^[a-z0-9.:-]+$/i.test(host) || !URL.canParse(`http://${host}`)) return null;
  return new URL(`http://${host}`).hostname;
}

function bearer({ authorization }: IncomingHttpHeaders): string | undefined {
  return /^Bearer +(\S+)$/i.exec(authorization ?? "")?.[1];
}

function isSameSecret(wanted: string, given: string | undefined): boolean {
  const [one, other] = [wanted, given ?? ""].map((text) => createHash("sha256").update(text).digest());
  return one !== undefined && other !== undefined && timingSafeEqual(one, other);
}
