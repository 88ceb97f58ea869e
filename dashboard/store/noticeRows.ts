import {
  noticeWhy,
  role,
  severity,
  type DeliveryState,
  type NoticeEnd,
  type NoticeWhy,
  type Role,
  type Severity,
} from "@boothward/shared-types";
import type { Kysely } from "kysely";
import * as z from "zod";
import type { NoticeRow, Tables } from "./tables.ts";

/** One message about one alert, before anybody was told. */
export type Notice = Omit<NoticeRow, "why" | "severity" | "toRole"> & {
  readonly why: NoticeWhy;
  readonly severity: Severity;
  readonly toRole: Role;
};
export type NewNotice = Omit<Notice, "spreadAtMs" | "endedAtMs" | "ended">;

/** What became of a notice's alert since; null: the alert is not known any more. */
export type AlertStanding = { readonly clearedAtMs: number | null; readonly answeredAtMs: number | null };

const answers = z.object({
  taken: z.object({ atMs: z.number() }).nullable().default(null),
  doneAtMs: z.number().nullable().default(null),
});

/**
 * Queues notices; one whose `onceKey` is there already is not queued again. Takes a transaction too, so that an
 * alert and its notices are written together.
 */
export async function addNotices(db: Kysely<Tables>, notices: readonly NewNotice[]): Promise<void> {
  for (const notice of notices)
    await db
      .insertInto("notice")
      .values({ ...notice, spreadAtMs: null, endedAtMs: null, ended: null })
      .onConflict((conflict) => conflict.column("onceKey").doNothing())
      .execute();
}

export function noticeOf(row: NoticeRow): Notice {
  const words = {
    why: noticeWhy.parse(row.why),
    severity: severity.parse(row.severity),
    toRole: role.parse(row.toRole),
  };
  const { noticeId, onceKey, alertId, boothId, bookingId, toPersonId, text } = row;
  const { createdAtMs, dueAtMs, spreadAtMs, endedAtMs, ended } = row;
  return {
    ...{ noticeId, onceKey, alertId, boothId, bookingId, toPersonId, text, ...words },
    ...{ createdAtMs, dueAtMs, spreadAtMs, endedAtMs, ended },
  };
}

export function standingOf(row: {
  readonly alertBody: string | null;
  readonly alertClearedAtMs: number | null;
}): AlertStanding | null {
  if (row.alertBody === null) return null;
  const { taken, doneAtMs } = answers.parse(JSON.parse(row.alertBody));
  const answeredAtMs = Math.max(taken?.atMs ?? -Infinity, doneAtMs ?? -Infinity);
  return {
    clearedAtMs: row.alertClearedAtMs,
    answeredAtMs: Number.isFinite(answeredAtMs) ? answeredAtMs : null,
  };
}

const unsettled: ReadonlySet<string> = new Set<DeliveryState>(["waiting", "gathered"]);

/** Ends those of these notices of which nothing is left to send. */
export async function endSettled(
  trx: Kysely<Tables>,
  noticeIds: readonly string[],
  atMs: number,
): Promise<void> {
  for (const noticeId of new Set(noticeIds)) {
    const rows = await trx.selectFrom("delivery").select("state").where("noticeId", "=", noticeId).execute();
    const states = new Set(rows.map(({ state }) => state));
    if ([...states].some((state) => unsettled.has(state))) continue;
    await trx
      .updateTable("notice")
      .set({ ended: endOf(states), endedAtMs: atMs })
      .where("noticeId", "=", noticeId)
      .where("endedAtMs", "is", null)
      .execute();
  }
}

/** The best that became of any of its deliveries. */
function endOf(states: ReadonlySet<string>): NoticeEnd {
  if (states.has("taken")) return "told";
  if (states.has("digested")) return "digested";
  if (states.has("over")) return "over";
  return states.has("expired") ? "expired" : "nobody";
}
