import { scrypt, timingSafeEqual } from "node:crypto";

/** 2^17 takes about a third of a second and 128 MiB: dear to guess, bearable to sign in. */
export const ordinaryCost = 2 ** 17;
const blockSize = 8;
const saltBytes = 16;
const keyBytes = 32;
/** Node refuses what needs more than this; 128 x cost x blockSize is needed, twice is enough. */
const mostMemory = 256 * 1024 * 1024;
/** People who wait for their password to be checked; more at once is an attack. */
const mostWaiting = 20;

/** Hashes passwords by scrypt (RFC 7914), one at a time, so that memory stays bounded. */
export type Passwords = {
  /** `scrypt$cost$blockSize$salt$key`, salt and key in base64url; null when too many wait. */
  hash(password: string): Promise<string | null>;
  /** Whether it is the password of this hash; as slow for no hash at all. Null when too many wait. */
  isRight(password: string, hash: string | null): Promise<boolean | null>;
};

export function passwords(randomBytes: (size: number) => Buffer, cost: number): Passwords {
  let waiting = 0;
  let last: Promise<unknown> = Promise.resolve();

  async function inTurn(password: string, salt: Buffer, atCost: number): Promise<Buffer | null> {
    if (waiting >= mostWaiting) return null;
    waiting += 1;
    const mine = last.then(() => keyOf(password, salt, atCost));
    last = mine.catch(() => undefined);
    return mine.finally(() => (waiting -= 1));
  }

  return {
    async hash(password) {
      const salt = randomBytes(saltBytes);
      const key = await inTurn(password, salt, cost);
      if (key === null) return null;
      return ["scrypt", cost, blockSize, salt.toString("base64url"), key.toString("base64url")].join("$");
    },
    async isRight(password, hash) {
      const [, atCost = String(cost), , salt = "", wanted = ""] = hash?.split("$") ?? [];
      const key = await inTurn(password, Buffer.from(salt, "base64url"), Number(atCost));
      if (key === null) return null;
      const wantedKey = Buffer.from(wanted, "base64url");
      return wantedKey.length === keyBytes && timingSafeEqual(key, wantedKey);
    },
  };
}

function keyOf(password: string, salt: Buffer, cost: number): Promise<Buffer> {
  // The same letters typed on another keyboard may come as other code points.
  const typed = password.normalize("NFKC");
  return new Promise((resolve, reject) => {
    scrypt(typed, salt, keyBytes, { N: cost, r: blockSize, p: 1, maxmem: mostMemory }, (error, key) => {
      if (error === null) resolve(key);
      else reject(error);
    });
  });
}
