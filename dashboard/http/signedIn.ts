import type { Store } from "../store/openStore.ts";
import type { Signed } from "./roles.ts";

/** Whoever has this sign-in at this moment: an owner, an attendant whose pass holds, or nobody. */
export async function signedIn(
  store: Pick<Store, "accounts" | "passes">,
  tokenHash: string,
  atMs: number,
): Promise<Signed | null> {
  return (await store.accounts.ofSignIn(tokenHash, atMs)) ?? (await store.passes.ofSignIn(tokenHash, atMs));
}
