import type { Kysely, Transaction } from "kysely";
import type { AccountRow, AgentRow, OneTimePurpose, OneTimeRow, SignInRow, Tables } from "./tables.ts";

/** Why a one-time code is good for nothing. */
export type CodeRefusal = "wrongCode" | "usedCode" | "expiredCode";

export type NewCode = Omit<OneTimeRow, "usedAtMs">;

/** For so long a person is told that a code is too old or used, and not only that it is unknown. */
const toldUsedMs = 24 * 3_600_000;

type Asked = { purpose: OneTimePurpose; codeHash: string; atMs: number };

/** Codes that are good once: each is used up in the same transaction as what it was used for. */
export function oneTimeCodes(db: Kysely<Tables>) {
  /** Uses the code up and does `act` with it, both or neither. */
  function use<T>(asked: Asked, act: (trx: Transaction<Tables>, code: OneTimeRow) => Promise<T>) {
    return db.transaction().execute(async (trx): Promise<T | { refused: CodeRefusal }> => {
      const code = await trx
        .selectFrom("oneTime")
        .selectAll()
        .where("codeHash", "=", asked.codeHash)
        .where("purpose", "=", asked.purpose)
        .executeTakeFirst();
      const refused = whyNot(code, asked.atMs);
      if (code === undefined || refused !== null) return { refused: refused ?? "wrongCode" };
      await trx
        .updateTable("oneTime")
        .set({ usedAtMs: asked.atMs })
        .where("codeHash", "=", asked.codeHash)
        .execute();
      return act(trx, code);
    });
  }

  return {
    /** Keeps a code, and forgets those that expired long ago. */
    async add(code: NewCode): Promise<void> {
      await db.transaction().execute(async (trx) => {
        await trx
          .deleteFrom("oneTime")
          .where("expiresAtMs", "<", code.createdAtMs - toldUsedMs)
          .execute();
        await trx
          .insertInto("oneTime")
          .values({ ...code, usedAtMs: null })
          .execute();
      });
    },

    /** Makes the first-run code the only one: a code of an earlier start is good for nothing. */
    async replaceFirstRun(code: NewCode): Promise<void> {
      await db.transaction().execute(async (trx) => {
        await trx.deleteFrom("oneTime").where("purpose", "=", "firstRun").execute();
        await trx
          .insertInto("oneTime")
          .values({ ...code, usedAtMs: null })
          .execute();
      });
    },

    /** Says why the code would be refused, without using it up. */
    async check(asked: Asked): Promise<CodeRefusal | null> {
      const code = await db
        .selectFrom("oneTime")
        .selectAll()
        .where("codeHash", "=", asked.codeHash)
        .where("purpose", "=", asked.purpose)
        .executeTakeFirst();
      return whyNot(code, asked.atMs);
    },

    useForFirstAccount(asked: Omit<Asked, "purpose">, account: AccountRow, signIn: SignInRow) {
      return use({ ...asked, purpose: "firstRun" }, async (trx) => {
        await trx.insertInto("account").values(account).execute();
        await trx.insertInto("signIn").values(signIn).execute();
        return { account };
      });
    },

    useForSignIn(asked: Omit<Asked, "purpose">, signIn: Omit<SignInRow, "accountId">) {
      return use({ ...asked, purpose: "signIn" }, async (trx, code) => {
        const account = await trx
          .selectFrom("account")
          .selectAll()
          .where("accountId", "=", code.accountId)
          .executeTakeFirstOrThrow();
        await trx
          .insertInto("signIn")
          .values({ ...signIn, accountId: account.accountId })
          .execute();
        return { account };
      });
    },

    /** Pairs an agent with the code's booth; an agent that was paired before gets the new token and booth. */
    useForPairing(asked: Omit<Asked, "purpose">, agent: PairedAgent) {
      return use({ ...asked, purpose: "pairing" }, async (trx, code) => {
        const booth = await trx
          .selectFrom("booth")
          .select(["boothId", "name"])
          .where("boothId", "=", code.boothId)
          .executeTakeFirstOrThrow();
        const paired = { ...agent, boothId: booth.boothId, revokedAtMs: null };
        await trx
          .insertInto("agent")
          .values({ ...paired, heardAtMs: null })
          .onConflict((conflict) => conflict.column("agentId").doUpdateSet(paired))
          .execute();
        return { booth };
      });
    },
  };
}

type PairedAgent = Pick<AgentRow, "agentId" | "hostName" | "tokenHash" | "pairedAtMs">;

function whyNot(code: OneTimeRow | undefined, atMs: number): CodeRefusal | null {
  if (code === undefined) return "wrongCode";
  if (code.usedAtMs !== null) return "usedCode";
  return code.expiresAtMs <= atMs ? "expiredCode" : null;
}
