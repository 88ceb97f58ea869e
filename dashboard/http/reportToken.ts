import { createHmac, timingSafeEqual } from "node:crypto";

/** The signature says what it is for, so that it is good for nothing else that this key may sign. */
const purpose = "report link ";

/** The token of a link: its id and, behind a point, an HMAC-SHA256 of it (RFC 2104, FIPS 180-4). */
export function reportToken(linkId: string, key: Buffer): string {
  return `${linkId}.${signatureOf(linkId, key)}`;
}

/** The link that a token was made for; null: it was not made with this key. Takes as long for any wrong one. */
export function linkOfToken(token: string, key: Buffer): string | null {
  const at = token.lastIndexOf(".");
  if (at < 1) return null;
  const linkId = token.slice(0, at);
  const said = Buffer.from(token.slice(at + 1));
  const right = Buffer.from(signatureOf(linkId, key));
  return said.length === right.length && timingSafeEqual(said, right) ? linkId : null;
}

function signatureOf(linkId: string, key: Buffer): string {
  return createHmac("sha256", key)
    .update(purpose + linkId)
    .digest("base64url");
}
