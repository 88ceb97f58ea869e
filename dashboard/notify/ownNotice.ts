import { shortened } from "../alerts/digestText.ts";
import type { DueDelivery, NewNotice } from "../store/notices.ts";

/** Something the dashboard says of itself to all owners; `onceKey` makes it one notice however often it is said. */
export function ownNotice(noticeId: string, onceKey: string, text: string, atMs: number): NewNotice {
  return {
    ...{ noticeId, onceKey: `own:${onceKey}`, text: shortened(text), why: "own", severity: "plan" },
    ...{ alertId: null, boothId: null, bookingId: null, toRole: "owner", toPersonId: null },
    ...{ createdAtMs: atMs, dueAtMs: atMs },
  };
}

/** That a way has failed somebody: once for each spell of its trouble. */
export function reachTrouble(
  noticeId: string,
  { reach, notice }: Pick<DueDelivery, "reach" | "notice">,
  said: string,
  atMs: number,
): NewNotice[] {
  // Who tries a way out sees what comes of it.
  if (notice.why === "test") return [];
  const { reachId, way, label, person, troubleFromAtMs } = reach;
  const onceKey = `reach:${reachId}:${troubleFromAtMs ?? atMs}`;
  const text = `Alerts do not reach ${person.name} by ${wayWords[way]} (${label}): ${said}.`;
  return [ownNotice(noticeId, onceKey, text, atMs)];
}

const wayWords = { push: "push", email: "e-mail", webhook: "webhook", http: "web call" };
