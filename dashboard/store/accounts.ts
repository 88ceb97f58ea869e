import type { Kysely } from "kysely";
import type { AccountRow, SignInRow, Tables } from "./tables.ts";

/** Owners and their sign-ins. Names are compared as they were written, tokens only as hashes. */
export function accounts(db: Kysely<Tables>) {
  return {
    async isEmpty(): Promise<boolean> {
      const row = await db.selectFrom("account").select("accountId").limit(1).executeTakeFirst();
      return row === undefined;
    },

    async add(account: AccountRow): Promise<void> {
      await db.insertInto("account").values(account).execute();
    },

    async byName(name: string): Promise<AccountRow | null> {
      const row = await db.selectFrom("account").selectAll().where("name", "=", name).executeTakeFirst();
      return row ?? null;
    },

    async addSignIn(signIn: SignInRow): Promise<void> {
      await db.insertInto("signIn").values(signIn).execute();
    },

    /** The account of a sign-in that has not expired. */
    async ofSignIn(tokenHash: string, atMs: number): Promise<Owner | null> {
      const row = await db
        .selectFrom("signIn")
        .innerJoin("account", "account.accountId", "signIn.accountId")
        .select(["account.accountId", "account.name", "signIn.expiresAtMs"])
        .where("signIn.tokenHash", "=", tokenHash)
        .where("signIn.expiresAtMs", ">", atMs)
        .executeTakeFirst();
      return row === undefined ? null : { role: "owner", tokenHash, ...row };
    },

    async endSignIn(tokenHash: string): Promise<void> {
      await db.deleteFrom("signIn").where("tokenHash", "=", tokenHash).execute();
    },

    async endExpiredSignIns(atMs: number): Promise<void> {
      await db.deleteFrom("signIn").where("expiresAtMs", "<=", atMs).execute();
    },
  };
}

/** An owner who is signed in, by one of the sign-ins. */
export type Owner = {
  readonly role: "owner";
  readonly tokenHash: string;
  readonly accountId: string;
  readonly name: string;
  readonly expiresAtMs: number;
};
