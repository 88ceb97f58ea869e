import {
  deliveryState,
  noticeEnd,
  noticeWhy,
  reachWay,
  role,
  severity,
  type ToldLine,
} from "@boothward/shared-types";
import type { Kysely } from "kysely";
import type { Tables } from "./tables.ts";

/** What became of notices; they are queued with their alerts (`alerts.save`). */
export function notices(db: Kysely<Tables>) {
  return {
    /** Who was told of these alerts, in the order of telling. */
    async ofAlerts(alertIds: readonly string[]): Promise<ToldLine[]> {
      if (alertIds.length === 0) return [];
      const rows = await toldRows(db).where("notice.alertId", "in", alertIds).execute();
      return rows.map(toldOf);
    },
  };
}

function toldRows(db: Kysely<Tables>) {
  return db
    .selectFrom("notice")
    .leftJoin("delivery", "delivery.noticeId", "notice.noticeId")
    .leftJoin("reach", "reach.reachId", "delivery.reachId")
    .selectAll("notice")
    .select(["delivery.deliveryId", "delivery.state", "delivery.lastSaid"])
    .select(["delivery.takenAtMs", "delivery.arrivedAtMs", "reach.way", "reach.label"])
    .orderBy("notice.createdAtMs")
    .orderBy("notice.noticeId")
    .orderBy("reach.createdAtMs");
}
type ToldRow = Awaited<ReturnType<ReturnType<typeof toldRows>["execute"]>>[number];

function toldOf(row: ToldRow): ToldLine {
  const { noticeId, alertId, text, ended, spreadAtMs, createdAtMs } = row;
  const { deliveryId, lastSaid, label, takenAtMs, arrivedAtMs } = row;
  return {
    ...{ noticeId, alertId, text, deliveryId, lastSaid, label, takenAtMs, arrivedAtMs },
    why: noticeWhy.parse(row.why),
    toRole: role.parse(row.toRole),
    severity: severity.parse(row.severity),
    atMs: spreadAtMs ?? createdAtMs,
    way: row.way === null ? null : reachWay.parse(row.way),
    state:
      row.state !== null ? deliveryState.parse(row.state) : ended === null ? "due" : noticeEnd.parse(ended),
  };
}
