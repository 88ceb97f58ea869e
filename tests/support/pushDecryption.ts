import {
  createDecipheriv,
  createECDH,
  createPublicKey,
  hkdfSync,
  randomBytes,
  verify,
  type ECDH,
} from "node:crypto";
import * as z from "zod";

/** A browser's end of web push: its keys, and what it can read. */
export type ABrowser = {
  readonly keys: { readonly p256dh: string; readonly auth: string };
  /** The text of a push, decrypted as RFC 8291 says. Throws when it is not for this browser. */
  read(body: Buffer): string;
};

/** A browser with new keys, or with given ones (base64url). */
export function aBrowser(given: { privateKey: string; auth: string } | null = null): ABrowser {
  const ecdh = createECDH("prime256v1");
  if (given === null) ecdh.generateKeys();
  else ecdh.setPrivateKey(Buffer.from(given.privateKey, "base64url"));
  const auth = given === null ? randomBytes(16) : Buffer.from(given.auth, "base64url");
  return {
    keys: { p256dh: ecdh.getPublicKey("base64url"), auth: auth.toString("base64url") },
    read: (body) => decrypt(body, ecdh, auth),
  };
}

/** **Source:** RFC 8188 section 2.1 (header) and 2 (last record's delimiter 2), RFC 8291 section 3.4 (keys). */
function decrypt(body: Buffer, browser: ECDH, auth: Buffer): string {
  const salt = body.subarray(0, 16);
  const recordSize = body.readUInt32BE(16);
  const keyLength = body.readUInt8(20);
  const serverKey = body.subarray(21, 21 + keyLength);
  const record = body.subarray(21 + keyLength);
  if (record.length > recordSize) throw new Error("more than one record (RFC 8291 section 4)");
  const hkdf = (key: Buffer, saltOf: Buffer, info: Buffer, length: number) =>
    Buffer.from(hkdfSync("sha256", key, saltOf, info, length));
  const keyInfo = Buffer.concat([Buffer.from("WebPush: info\0"), browser.getPublicKey(), serverKey]);
  const ikm = hkdf(browser.computeSecret(serverKey), auth, keyInfo, 32);
  const key = hkdf(ikm, salt, Buffer.from("Content-Encoding: aes128gcm\0"), 16);
  const nonce = hkdf(ikm, salt, Buffer.from("Content-Encoding: nonce\0"), 12);
  const decipher = createDecipheriv("aes-128-gcm", key, nonce);
  decipher.setAuthTag(record.subarray(-16));
  const plain = Buffer.concat([decipher.update(record.subarray(0, -16)), decipher.final()]);
  const delimiter = plain.lastIndexOf(2);
  if (plain.subarray(delimiter + 1).some((byte) => byte !== 0)) throw new Error("no last record's delimiter");
  return plain.subarray(0, delimiter).toString("utf8");
}

const claims = z.object({ aud: z.string(), exp: z.number(), sub: z.string() });

/**
 * The claims of an Authorization header as RFC 8292 has it, once its ES256 signature is verified with the key beside
 * it. Throws when it does not fit.
 */
export function vapidClaims(header: string | undefined): z.infer<typeof claims> & { publicKey: string } {
  const [, token = "", publicKey = ""] = /^vapid t=([^,]+), ?k=(.+)$/.exec(header ?? "") ?? [];
  const [head = "", body = "", signature = ""] = token.split(".");
  const point = Buffer.from(publicKey, "base64url");
  const [x, y] = [point.subarray(1, 33).toString("base64url"), point.subarray(33).toString("base64url")];
  const key = createPublicKey({ key: { kty: "EC", crv: "P-256", x, y }, format: "jwk" });
  const signed = Buffer.from(`${head}.${body}`);
  const ieee = { key, dsaEncoding: "ieee-p1363" } as const;
  if (!verify("sha256", signed, ieee, Buffer.from(signature, "base64url")))
    throw new Error("wrong signature");
  const { alg } = z.object({ alg: z.string() }).parse(JSON.parse(Buffer.from(head, "base64url").toString()));
  if (alg !== "ES256") throw new Error(`signed by ${alg}`);
  return { ...claims.parse(JSON.parse(Buffer.from(body, "base64url").toString())), publicKey };
}
