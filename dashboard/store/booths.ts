import { boothBox, type BoothBox } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import type { AgentRow, BoothRow, Tables } from "./tables.ts";

/** A booth as the owner set it up. `limitC`: warmest its printer may get. */
export type Booth = {
  readonly boothId: string;
  readonly name: string;
  readonly isTrailer: boolean;
  readonly kitSheets: number;
  readonly limitC: number;
  /** null: nobody measured it. */
  readonly box: BoothBox | null;
};

export function booths(db: Kysely<Tables>) {
  return {
    /** All booths in the order they were made. */
    async all(): Promise<Booth[]> {
      const rows = await db
        .selectFrom("booth")
        .selectAll()
        .orderBy("createdAtMs")
        .orderBy("boothId")
        .execute();
      return rows.map(boothOf);
    },

    async byId(boothId: string): Promise<Booth | null> {
      const row = await db.selectFrom("booth").selectAll().where("boothId", "=", boothId).executeTakeFirst();
      return row === undefined ? null : boothOf(row);
    },

    async isNameTaken(name: string, butOfBoothId: string | null): Promise<boolean> {
      const row = await db.selectFrom("booth").select("boothId").where("name", "=", name).executeTakeFirst();
      return row !== undefined && row.boothId !== butOfBoothId;
    },

    async add(booth: Booth, atMs: number): Promise<void> {
      await db
        .insertInto("booth")
        .values({ ...rowOf(booth), createdAtMs: atMs })
        .execute();
    },

    async change(booth: Booth): Promise<void> {
      await db.updateTable("booth").set(rowOf(booth)).where("boothId", "=", booth.boothId).execute();
    },

    /** Agents that are not revoked, the latest paired first. */
    async agents(): Promise<AgentRow[]> {
      return db
        .selectFrom("agent")
        .selectAll()
        .where("revokedAtMs", "is", null)
        .orderBy("pairedAtMs", "desc")
        .execute();
    },
  };
}

function boothOf({ boothId, name, isTrailer, kitSheets, limitC, box }: BoothRow): Booth {
  const measured = box === null ? null : boothBox.parse(JSON.parse(box));
  return { boothId, name, isTrailer: isTrailer === 1, kitSheets, limitC, box: measured };
}

function rowOf(booth: Booth): Omit<BoothRow, "createdAtMs"> {
  const box = booth.box === null ? null : JSON.stringify(booth.box);
  return { ...booth, isTrailer: booth.isTrailer ? 1 : 0, box };
}
