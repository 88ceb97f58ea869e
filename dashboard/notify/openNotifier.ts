import type { Clock, ReachWay } from "@boothward/shared-types";
import type { Logger } from "pino";
import type { Waiting } from "../store/deliveries.ts";
import type { Store } from "../store/openStore.ts";
import { openCallOut, type CallOut, type CallOutOptions } from "./callOut.ts";
import type { Channel } from "./channel.ts";
import { chooseStarts, sendLimits } from "./chooseStarts.ts";
import { openDeadManPing } from "./deadManPing.ts";
import { emailChannel } from "./emailChannel.ts";
import { httpChannel } from "./httpChannel.ts";
import { readMailAccess, readNoticeSettings } from "./noticeSettings.ts";
import { ownKeys, type OwnKeys } from "./ownKeys.ts";
import { pushChannel } from "./pushChannel.ts";
import { sendDelivery, type SendWorld } from "./sendDelivery.ts";
import { sendDigests } from "./sendDigests.ts";
import { mostAtOnce, spreadDue } from "./spreadDue.ts";
import { webhookChannel } from "./webhookChannel.ts";

export type NotifierOptions = {
  readonly store: Store;
  readonly clock: Clock;
  readonly log: Logger;
  readonly makeId: () => string;
  readonly randomBytes: (size: number) => Buffer;
  /** From 0 up to but not including 1. */
  readonly dice: () => number;
  /** What people type to reach the dashboard. */
  readonly origin: () => string;
  readonly outside: CallOutOptions;
};

/** Sends what is queued, as long as it is open. */
export type Notifier = {
  /** Something was queued: it leaves at once. Called after the commit that queued it. */
  readonly wake: () => void;
  /** Sends what has fallen due; called each second, never waits for an address. */
  tick(): Promise<void>;
  /** Resolves when nothing is being sent. */
  settled(): Promise<void>;
  /** What browsers subscribe with, base64url. */
  readonly pushKey: string;
  /** Calls to the outside, lately, and whether anything answered. */
  readonly lateCalls: () => readonly LateCall[];
  /** Lets what is under way end, and begins nothing more. */
  close(): Promise<void>;
};

export type LateCall = { readonly atMs: number; readonly didAnswer: boolean };

const mostLateCalls = 50;

export async function openNotifier(options: NotifierOptions): Promise<Notifier> {
  const { store, clock, log, makeId } = options;
  const now = () => clock().wallMs;
  const keys = await ownKeys(store.settings, options.randomBytes, now());
  const { callOut, lateCalls } = countedCalls(openCallOut(options.outside), now);
  const ping = openDeadManPing({ store, clock, log, makeId, callOut, wake: () => loop.wake() });
  const world: SendWorld = {
    ...{ store, makeId, now, dice: options.dice, origin: options.origin, arrivalKey: keys.arrivalKey },
    channels: channelsOf(options, callOut, keys),
  };
  const loop = sendingLoop(world, options);
  return {
    wake: loop.wake,
    async tick() {
      loop.wake();
      await ping.tick();
    },
    async settled() {
      await ping.settled();
      await loop.settled();
    },
    pushKey: keys.push.publicKey,
    lateCalls,
    async close() {
      await ping.settled();
      await loop.close();
    },
  };
}

function channelsOf(
  { store, origin, outside }: NotifierOptions,
  callOut: CallOut,
  keys: OwnKeys,
): Readonly<Record<ReachWay, Channel>> {
  const { trustedCa, mostMs } = outside;
  const subject = async () =>
    subjectOf(origin(), (await readNoticeSettings(store.settings, null)).mail?.from);
  return {
    push: pushChannel(callOut, keys.push, subject),
    email: emailChannel({ access: () => readMailAccess(store.settings), trustedCa, mostMs }),
    webhook: webhookChannel(callOut),
    http: httpChannel(callOut),
  };
}

/** Whom a push service may write to about what it is sent (RFC 8292 section 2.1): a mail address or an https page. */
function subjectOf(origin: string, mailFrom: string | undefined): string {
  if (mailFrom !== undefined) return `mailto:${mailFrom}`;
  return origin.startsWith("https:") ? origin : "https://boothward.invalid";
}

function countedCalls(callOut: CallOut, now: () => number) {
  const late: LateCall[] = [];
  const counted: CallOut = async (call) => {
    const called = await callOut(call);
    const didAnswer = !("fault" in called && ["timeout", "unreachable"].includes(called.fault));
    late.push({ atMs: now(), didAnswer });
    if (late.length > mostLateCalls) late.shift();
    return called;
  };
  return { callOut: counted, lateCalls: () => [...late] };
}

/** Spreads, gathers and starts sends, one round at a time; a wake in the middle of a round makes another. */
function sendingLoop(world: SendWorld, { store, log }: NotifierOptions) {
  const underWay = new Map<string, { readonly waiting: Waiting; readonly sending: Promise<void> }>();
  let round: Promise<void> | null = null;
  let isWoken = false;
  let isClosed = false;

  function wake(): void {
    if (isClosed) return;
    isWoken = true;
    round ??= rounds().finally(() => {
      round = null;
      // Woken after the last look and before this moment.
      if (isWoken) wake();
    });
  }

  async function rounds(): Promise<void> {
    while (isWoken && !isClosed) {
      isWoken = false;
      try {
        await once();
      } catch (error) {
        log.error({ err: error }, "notices could not be sent on; the next tick tries again");
      }
    }
  }

  async function once(): Promise<void> {
    const atMs = world.now();
    const spreadWorld = { store, arrivalKey: world.arrivalKey, makeId: world.makeId };
    while ((await spreadDue(spreadWorld, atMs)) === mostAtOnce && !isClosed);
    await sendDigests(spreadWorld, atMs);
    const waiting = (await store.deliveries.waiting(atMs)).filter(
      ({ deliveryId }) => !underWay.has(deliveryId),
    );
    const busy = [...underWay.values()].map((each) => each.waiting);
    for (const each of chooseStarts(waiting, busy, sendLimits)) start(each, atMs);
  }

  function start(waiting: Waiting, atMs: number): void {
    const sending = send(waiting.deliveryId, atMs).then(
      () => {
        underWay.delete(waiting.deliveryId);
        wake();
      },
      // Nothing was kept of it: the next tick tries again, and not this moment.
      (error: unknown) => {
        underWay.delete(waiting.deliveryId);
        log.error({ err: error }, "what came of a notice could not be kept");
      },
    );
    underWay.set(waiting.deliveryId, { waiting, sending });
  }

  async function send(deliveryId: string, atMs: number): Promise<void> {
    const delivery = await store.deliveries.byId(deliveryId, atMs);
    if (delivery === null) return;
    const outcome = await sendDelivery(world, delivery);
    if (outcome.state !== "taken")
      log.warn(
        { way: delivery.reach.way, state: outcome.state, said: outcome.said },
        "a notice was not taken",
      );
    await store.deliveries.saveOutcome(outcome, world.now());
  }

  async function settled(): Promise<void> {
    while (round !== null || underWay.size > 0)
      await Promise.all([round, ...[...underWay.values()].map(({ sending }) => sending)]);
  }

  return {
    wake,
    settled,
    async close() {
      isClosed = true;
      await settled();
    },
  };
}
