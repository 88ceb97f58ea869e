import type { ReachWay } from "@boothward/shared-types";
import type { Outcome } from "../store/deliveries.ts";
import type { DueDelivery, NewNotice } from "../store/notices.ts";
import type { Store } from "../store/openStore.ts";
import { giveUpAfterMs, retryAfter } from "./backOff.ts";
import type { Channel, Message, SendResult } from "./channel.ts";
import { isOver } from "./isOver.ts";
import { messageOf } from "./messageOf.ts";
import { ownNotice, reachTrouble } from "./ownNotice.ts";

export type SendWorld = {
  readonly store: Pick<Store, "reaches">;
  readonly channels: Readonly<Record<ReachWay, Channel>>;
  readonly arrivalKey: string;
  readonly origin: () => string;
  readonly makeId: () => string;
  readonly dice: () => number;
  /** Unix ms. */
  readonly now: () => number;
};

/** Tries a delivery once and gives what came of it, to be stored. */
export async function sendDelivery(world: SendWorld, delivery: DueDelivery): Promise<Outcome> {
  const startedAtMs = world.now();
  const { reach, notice } = delivery;
  const unsent = (state: Outcome["state"], said: string): Outcome => ({
    ...{ ...idsOf(delivery), state, said, reach: "untried", own: [] },
    ...{ tries: delivery.tries, nextTryAtMs: delivery.nextTryAtMs },
  });
  if (delivery.isReachOver) return unsent("gone", "this way was taken away");
  if (isOver(notice, delivery.alert)) return unsent("over", "it was over or answered before");
  if (isTooLate(delivery, startedAtMs)) return unsent("expired", "it was too late to help");
  const message = messageOf(delivery, world.arrivalKey, world.origin());
  const result = await sendBy(world.channels[reach.way], reach.body, message, startedAtMs);
  return outcomeOf(world, delivery, result, world.now());
}

/** A channel throws only at what it cannot read: that does not get better by trying again. */
async function sendBy(channel: Channel, body: unknown, message: Message, atMs: number): Promise<SendResult> {
  try {
    return await channel.send(body, message, atMs);
  } catch (error) {
    return {
      result: "refused",
      reason: `it cannot be used: ${error instanceof Error ? error.name : "unknown"}`,
    };
  }
}

async function outcomeOf(
  world: SendWorld,
  delivery: DueDelivery,
  result: SendResult,
  atMs: number,
): Promise<Outcome> {
  const tried = { ...idsOf(delivery), tries: delivery.tries + 1, nextTryAtMs: atMs };
  switch (result.result) {
    case "sent":
      return { ...tried, state: "taken", said: null, reach: "works", own: [] };
    case "retryable":
      return afterFailure(world, delivery, result, atMs);
    case "refused": {
      const own = reachTrouble(world.makeId(), delivery, result.reason, atMs);
      return { ...tried, state: "refused", said: result.reason, reach: "fails", own };
    }
    case "gone": {
      const own = await ofLastWay(world, delivery, atMs);
      return { ...tried, state: "gone", said: result.reason, reach: "ended", own };
    }
  }
}

function afterFailure(
  world: SendWorld,
  delivery: DueDelivery,
  { retryInMs, said }: Extract<SendResult, { result: "retryable" }>,
  atMs: number,
): Outcome {
  const tries = delivery.tries + 1;
  const nextTryAtMs = atMs + retryAfter(tries, retryInMs, world.dice);
  const tried = { ...idsOf(delivery), tries, nextTryAtMs, said, reach: "fails" as const };
  if (!isTooLate(delivery, nextTryAtMs)) return { ...tried, state: "waiting", own: [] };
  return { ...tried, state: "expired", own: reachTrouble(world.makeId(), delivery, said, atMs) };
}

/** A device that is no more matters to others only when it was its person's last. */
async function ofLastWay(world: SendWorld, { reach }: DueDelivery, atMs: number): Promise<NewNotice[]> {
  const left = await world.store.reaches.ofPerson(reach.person);
  if (left.some(({ reachId }) => reachId !== reach.reachId)) return [];
  const text = `${reach.person.name} can no longer be alerted: ${reach.label} was the last way, and it is gone.`;
  return [ownNotice(world.makeId(), `gone:${reach.reachId}`, text, atMs)];
}

function isTooLate({ notice }: DueDelivery, atMs: number): boolean {
  return atMs - notice.dueAtMs > giveUpAfterMs[notice.severity];
}

function idsOf({ deliveryId, notice, reach }: DueDelivery) {
  return { deliveryId, noticeId: notice.noticeId, reachId: reach.reachId };
}
