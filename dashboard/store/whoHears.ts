import type { Kysely } from "kysely";
import * as z from "zod";
import type { Tables } from "./tables.ts";

/** Who can be told of anything at this moment, by any way that lives. */
export type WhoHears = {
  readonly hasOwner: boolean;
  /** Bookings whose attendants have a way. */
  readonly bookingIds: readonly string[];
};

const idList = z.array(z.string());

export function whoHears(db: Kysely<Tables>) {
  return async (atMs: number): Promise<WhoHears> => {
    const rows = await db
      .selectFrom("reach")
      .leftJoin("pass", "pass.passId", "reach.passId")
      .select(["reach.accountId", "pass.bookingIds", "pass.endsAtMs", "pass.revokedAtMs"])
      .where("reach.endedAtMs", "is", null)
      .execute();
    const passes = rows.filter(({ endsAtMs, revokedAtMs }) => (endsAtMs ?? 0) > atMs && revokedAtMs === null);
    return {
      hasOwner: rows.some(({ accountId }) => accountId !== null),
      bookingIds: passes.flatMap(({ bookingIds }) => idList.parse(JSON.parse(bookingIds ?? "[]"))),
    };
  };
}
