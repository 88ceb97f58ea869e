import { digestText, worstOf } from "../alerts/digestText.ts";
import type { Digest, DueDelivery, NewNotice } from "../store/notices.ts";
import { isOver } from "./isOver.ts";
import { newDelivery } from "./newDelivery.ts";
import { quietOf, quietUntil } from "./quietOf.ts";
import type { SpreadWorld } from "./spreadDue.ts";

/** Makes one notice for each person of what was gathered for them, once it is time. */
export async function sendDigests(world: SpreadWorld, atMs: number): Promise<void> {
  const gathered = await world.store.notices.dueGathered(atMs);
  const people = new Set(gathered.map(({ reach }) => reach.person.personId));
  for (const personId of people) {
    const own = gathered.filter(({ reach }) => reach.person.personId === personId);
    const digest = digestOf(world, own, atMs);
    const isForLater = digest.notice !== null && (await mustWait(world, own, digest.notice, atMs));
    if (!isForLater) await world.store.notices.saveDigest(digest, atMs);
  }
}

function digestOf(world: SpreadWorld, gathered: readonly DueDelivery[], atMs: number): Digest {
  const isGone = ({ notice, alert, isReachOver }: DueDelivery) => isReachOver || isOver(notice, alert);
  const overIds = gathered.filter(isGone).map(({ deliveryId }) => deliveryId);
  const left = gathered.filter((delivery) => !isGone(delivery));
  if (left.length === 0) return { notice: null, deliveries: [], digestedIds: [], overIds };
  const notice = digestNotice(world.makeId(), left, atMs);
  const reachIds = [...new Set(left.map(({ reach }) => reach.reachId))];
  const its = { noticeId: notice.noticeId, state: "waiting", nextTryAtMs: atMs } as const;
  const deliveries = reachIds.map((reachId) => newDelivery(world, { ...its, reachId }));
  return { notice, deliveries, digestedIds: left.map(({ deliveryId }) => deliveryId), overIds };
}

/** One notice of what several say; one alone stays about its alert. */
function digestNotice(noticeId: string, left: readonly DueDelivery[], atMs: number): NewNotice {
  const notices = [...new Map(left.map(({ notice }) => [notice.noticeId, notice])).values()];
  const { role, personId } = left[0]?.reach.person ?? { role: "owner", personId: null };
  const worst = worstOf(notices);
  const isOfOneBooth = notices.every(({ boothId }) => boothId === worst.boothId);
  return {
    ...{ noticeId, onceKey: `digest:${noticeId}`, why: "digest", severity: worst.severity },
    alertId: notices.length === 1 ? worst.alertId : null,
    boothId: isOfOneBooth ? worst.boothId : null,
    ...{ bookingId: null, toRole: role, toPersonId: personId, text: digestText(notices) },
    ...{ createdAtMs: atMs, dueAtMs: atMs },
  };
}

/** Quiet hours may have begun since it was gathered; "now" passes. */
async function mustWait(
  { store }: SpreadWorld,
  gathered: readonly DueDelivery[],
  notice: NewNotice,
  atMs: number,
): Promise<boolean> {
  const person = gathered[0]?.reach.person;
  if (person === undefined) return false;
  return quietUntil(notice, await quietOf(store.settings, person), atMs) !== null;
}
