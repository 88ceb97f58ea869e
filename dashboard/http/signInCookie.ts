const name = "boothwardSignIn";

/** The sign-in's token in a request's Cookie header (RFC 6265 section 5.4); null without one. */
export function tokenIn(cookieHeader: string | undefined): string | null {
  for (const pair of cookieHeader?.split(";") ?? []) {
    const at = pair.indexOf("=");
    if (at > 0 && pair.slice(0, at).trim() === name) return pair.slice(at + 1).trim();
  }
  return null;
}

/**
 * A Set-Cookie header for a sign-in's token, kept from scripts and from other sites; over https only where
 * the dashboard is reached so. An empty token with 0 ms takes it away.
 */
export function signInCookie(token: string, forMs: number, isHttps: boolean): string {
  const parts = [`${name}=${token}`, "Path=/", `Max-Age=${Math.floor(forMs / 1000)}`];
  return [...parts, "HttpOnly", "SameSite=Strict", ...(isHttps ? ["Secure"] : [])].join("; ");
}
