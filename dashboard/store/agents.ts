import { clockSample, type ClockSample } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import * as z from "zod";
import type { AgentRow, Tables } from "./tables.ts";

/** A boot as the link needs it: what is stored of it, and its clock. */
export type Boot = {
  readonly bootId: string;
  readonly throughSeq: number;
  readonly samples: readonly ClockSample[];
  readonly wallBehindMs: number | null;
  readonly doubtfulAtMs: number | null;
};

export type BootClock = Pick<Boot, "bootId" | "samples" | "wallBehindMs" | "doubtfulAtMs">;

/** Boots said in one welcome: an agent keeps days, not years, and the frame has a limit. */
const mostBoots = 500;

const sampleList = z.array(clockSample);

/** Agents, their tokens (hashed) and the boots of their clocks. */
export function agents(db: Kysely<Tables>) {
  return {
    async byTokenHash(tokenHash: string): Promise<AgentRow | null> {
      const row = await db
        .selectFrom("agent")
        .selectAll()
        .where("tokenHash", "=", tokenHash)
        .executeTakeFirst();
      return row ?? null;
    },

    /** False when there is no such agent, or it is revoked already. */
    async revoke(agentId: string, atMs: number): Promise<boolean> {
      const done = await db
        .updateTable("agent")
        .set({ revokedAtMs: atMs })
        .where("agentId", "=", agentId)
        .where("revokedAtMs", "is", null)
        .executeTakeFirst();
      return done.numUpdatedRows > 0n;
    },

    async saveHeard(heard: readonly { agentId: string; heardAtMs: number }[]): Promise<void> {
      await db.transaction().execute(async (trx) => {
        for (const { agentId, heardAtMs } of heard)
          await trx.updateTable("agent").set({ heardAtMs }).where("agentId", "=", agentId).execute();
      });
    },

    /** Notes a boot that greets for the first time; one that is known stays as it is. */
    async beginBoot(agentId: string, bootId: string, atMs: number): Promise<void> {
      await db
        .insertInto("boot")
        .values({
          agentId,
          bootId,
          beganAtMs: atMs,
          throughSeq: 0,
          samples: "[]",
          wallBehindMs: null,
          doubtfulAtMs: null,
        })
        .onConflict((conflict) => conflict.columns(["agentId", "bootId"]).doNothing())
        .execute();
    },

    /** The agent's boots, the latest first. */
    async boots(agentId: string): Promise<Boot[]> {
      const rows = await db
        .selectFrom("boot")
        .selectAll()
        .where("agentId", "=", agentId)
        .orderBy("beganAtMs", "desc")
        .limit(mostBoots)
        .execute();
      return rows.map(({ bootId, throughSeq, samples, wallBehindMs, doubtfulAtMs }) => ({
        bootId,
        throughSeq,
        samples: sampleList.parse(JSON.parse(samples)),
        wallBehindMs,
        doubtfulAtMs,
      }));
    },

    async saveClock(agentId: string, clock: BootClock): Promise<void> {
      const { samples, wallBehindMs, doubtfulAtMs } = clock;
      await db
        .updateTable("boot")
        .set({ samples: JSON.stringify(samples), wallBehindMs, doubtfulAtMs })
        .where("agentId", "=", agentId)
        .where("bootId", "=", clock.bootId)
        .execute();
    },
  };
}
