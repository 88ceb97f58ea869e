import { createHash } from "node:crypto";

/**
 * How a token or one-time code is kept: SHA-256, hexadecimal. Enough for secrets of 128 random bits; the
 * short pairing code lives for minutes and behind a limit of tries. Passwords are hashed by scrypt.
 */
export function secretHash(secret: string): string {
  return createHash("sha256").update(secret, "utf8").digest("hex");
}
