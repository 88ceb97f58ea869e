import type { AlertStanding, Notice } from "../store/notices.ts";

/** Whether what a notice is about is over, or was answered after it was queued: it is not sent late then. */
export function isOver(notice: Notice, alert: AlertStanding | null): boolean {
  if (notice.alertId === null) return false;
  if (alert === null || alert.clearedAtMs !== null) return true;
  return alert.answeredAtMs !== null && alert.answeredAtMs >= notice.createdAtMs;
}
