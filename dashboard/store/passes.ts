import type { Kysely } from "kysely";
import * as z from "zod";
import type { PassRow, PassSignInRow, Tables } from "./tables.ts";

/** A person who came in by a pass, as long as it holds. */
export type Attendant = {
  readonly role: "attendant";
  readonly tokenHash: string;
  readonly passId: string;
  readonly name: string;
  readonly bookingIds: readonly string[];
  /** The booths of those bookings: what the person may see and answer for. */
  readonly boothIds: readonly string[];
  readonly expiresAtMs: number;
};

/** A pass as the owner sees it, with the devices that came in by it. */
export type Pass = Omit<PassRow, "tokenHash" | "bookingIds"> & {
  readonly bookingIds: readonly string[];
  readonly devices: readonly { readonly device: string; readonly createdAtMs: number }[];
};

/** Why a pass lets nobody in; `full` when too many devices came in by it already. */
export type PassRefusal = "wrongPass" | "endedPass" | "revokedPass" | "fullPass";

const idList = z.array(z.string());

/** Attendants' ways in: each ends with the event, by itself or by the owner's word. */
export function passes(db: Kysely<Tables>) {
  async function boothsOf(bookingIds: readonly string[]): Promise<string[]> {
    const rows = await db
      .selectFrom("booking")
      .select("boothId")
      .distinct()
      .where("bookingId", "in", bookingIds)
      .execute();
    return rows.map(({ boothId }) => boothId);
  }

  return {
    async add(pass: Omit<PassRow, "bookingIds" | "revokedAtMs"> & { bookingIds: readonly string[] }) {
      const row = { ...pass, bookingIds: JSON.stringify(pass.bookingIds), revokedAtMs: null };
      await db.insertInto("pass").values(row).execute();
    },

    /** Lets a device in by the pass's secret; the sign-in ends with the pass. */
    enter(asked: Entering): Promise<Entered | PassRefusal> {
      return db.transaction().execute(async (trx) => {
        const { passTokenHash, signIn, mostDevices } = asked;
        const pass = await trx
          .selectFrom("pass")
          .selectAll()
          .where("tokenHash", "=", passTokenHash)
          .executeTakeFirst();
        const atMs = signIn.createdAtMs;
        if (pass === undefined) return "wrongPass";
        if (pass.revokedAtMs !== null) return "revokedPass";
        if (pass.endsAtMs <= atMs) return "endedPass";
        const devices = await trx
          .selectFrom("passSignIn")
          .select("tokenHash")
          .where("passId", "=", pass.passId)
          .execute();
        if (devices.length >= mostDevices) return "fullPass";
        const row = { ...signIn, passId: pass.passId, expiresAtMs: pass.endsAtMs };
        await trx.insertInto("passSignIn").values(row).execute();
        return { passId: pass.passId, name: pass.name, endsAtMs: pass.endsAtMs };
      });
    },

    /** The attendant of a device's sign-in, while the pass holds. */
    async ofSignIn(tokenHash: string, atMs: number): Promise<Attendant | null> {
      const row = await db
        .selectFrom("passSignIn")
        .innerJoin("pass", "pass.passId", "passSignIn.passId")
        .select(["pass.passId", "pass.name", "pass.bookingIds", "pass.endsAtMs"])
        .where("passSignIn.tokenHash", "=", tokenHash)
        .where("pass.endsAtMs", ">", atMs)
        .where("pass.revokedAtMs", "is", null)
        .executeTakeFirst();
      if (row === undefined) return null;
      const bookingIds = idList.parse(JSON.parse(row.bookingIds));
      const boothIds = await boothsOf(bookingIds);
      const { passId, name, endsAtMs } = row;
      return { role: "attendant", tokenHash, passId, name, bookingIds, boothIds, expiresAtMs: endsAtMs };
    },

    /** All passes that have not ended, the latest first. */
    async standing(atMs: number): Promise<Pass[]> {
      const rows = await db
        .selectFrom("pass")
        .select(["passId", "name", "bookingIds", "madeBy", "createdAtMs", "endsAtMs", "revokedAtMs"])
        .where("endsAtMs", ">", atMs)
        .where("revokedAtMs", "is", null)
        .orderBy("createdAtMs", "desc")
        .execute();
      // A list without an entry is no SQL.
      if (rows.length === 0) return [];
      const devices = await db
        .selectFrom("passSignIn")
        .select(["passId", "device", "createdAtMs"])
        .where(
          "passId",
          "in",
          rows.map(({ passId }) => passId),
        )
        .orderBy("createdAtMs")
        .execute();
      return rows.map(({ bookingIds, ...row }) => ({
        ...row,
        bookingIds: idList.parse(JSON.parse(bookingIds)),
        devices: devices
          .filter(({ passId }) => passId === row.passId)
          .map(({ device, createdAtMs }) => ({ device, createdAtMs })),
      }));
    },

    /** Ends a pass and all that came in by it; gives their sign-ins' hashes, null when there is no such pass. */
    revoke(passId: string, atMs: number): Promise<string[] | null> {
      return db.transaction().execute(async (trx) => {
        const done = await trx
          .updateTable("pass")
          .set({ revokedAtMs: atMs })
          .where("passId", "=", passId)
          .where("revokedAtMs", "is", null)
          .executeTakeFirst();
        if (done.numUpdatedRows === 0n) return null;
        const rows = await trx
          .selectFrom("passSignIn")
          .select("tokenHash")
          .where("passId", "=", passId)
          .execute();
        return rows.map(({ tokenHash }) => tokenHash);
      });
    },

    /** The booths of a pass's bookings; none of a pass that is not there. */
    async boothsOf(passId: string): Promise<string[]> {
      const row = await db
        .selectFrom("pass")
        .select("bookingIds")
        .where("passId", "=", passId)
        .executeTakeFirst();
      return row === undefined ? [] : boothsOf(idList.parse(JSON.parse(row.bookingIds)));
    },

    async endSignIn(tokenHash: string): Promise<void> {
      await db.deleteFrom("passSignIn").where("tokenHash", "=", tokenHash).execute();
    },
  };
}

type Entered = { readonly passId: string; readonly name: string; readonly endsAtMs: number };
/** Who may see one booking may see the other from now on. */
export async function addToPasses(trx: Kysely<Tables>, bookingId: string, moreId: string): Promise<void> {
  const rows = await trx.selectFrom("pass").select(["passId", "bookingIds"]).execute();
  for (const { passId, bookingIds } of rows) {
    const ids = idList.parse(JSON.parse(bookingIds));
    if (!ids.includes(bookingId)) continue;
    const more = JSON.stringify([...ids, moreId]);
    await trx.updateTable("pass").set({ bookingIds: more }).where("passId", "=", passId).execute();
  }
}

type Entering = {
  readonly passTokenHash: string;
  readonly signIn: Omit<PassSignInRow, "passId" | "expiresAtMs">;
  readonly mostDevices: number;
};
