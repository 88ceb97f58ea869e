import { deliveryState, noticeEnd, reachWay, type ToldLine } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import { noticeOf } from "./noticeRows.ts";
import type { Tables } from "./tables.ts";

/** Notices with their deliveries, one row each, for the story of who was told. */
export function toldRows(db: Kysely<Tables>) {
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

export function toldOf(row: ToldRow): ToldLine {
  const { noticeId, alertId, why, toRole, severity, text, ended, spreadAtMs, createdAtMs } = noticeOf(row);
  const { deliveryId, lastSaid, label, takenAtMs, arrivedAtMs } = row;
  return {
    ...{ noticeId, alertId, why, toRole, severity, text },
    ...{ deliveryId, lastSaid, label, takenAtMs, arrivedAtMs },
    atMs: spreadAtMs ?? createdAtMs,
    way: row.way === null ? null : reachWay.parse(row.way),
    state:
      row.state !== null ? deliveryState.parse(row.state) : ended === null ? "due" : noticeEnd.parse(ended),
  };
}
