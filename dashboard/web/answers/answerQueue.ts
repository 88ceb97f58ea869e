import { alertAnswer } from "@boothward/shared-types/words";
import type { AlertAnswer } from "@boothward/shared-types/words";
import { signal } from "@preact/signals";
import type { ReadonlySignal } from "@preact/signals";
import * as z from "zod/mini";
import type { Refusal } from "../state/api.ts";

const said = z.object({
  alertId: z.string(),
  answer: alertAnswer,
  /** Made with the press: the dashboard counts it once, however often it is sent. */
  sayId: z.string(),
  saidAtMs: z.number(),
});
/** One press of one of the three buttons, as it is kept until the dashboard took it. */
export type Said = z.infer<typeof said>;

/** What came of sending one: taken, refused for good, or to be tried again. */
export type Sent = "taken" | "later" | { refusal: Refusal };

export type QueueWorld = {
  /** Where presses outlive the page. */
  kept: Pick<Storage, "getItem" | "setItem" | "removeItem">;
  send(said: Said): Promise<Sent>;
  newId(): string;
};

export type AnswerQueue = {
  /** Presses that were not taken yet, oldest first. */
  waiting: ReadonlySignal<readonly Said[]>;
  /** The dashboard's no to the last press that it refused. */
  refused: ReadonlySignal<{ alertId: string; refusal: Refusal } | null>;
  say(alertId: string, answer: AlertAnswer, atMs: number): void;
  /** Sends what waits, in order, until one does not get through. `atMs`: what is older than an evening is let go. */
  flush(atMs: number): Promise<void>;
};

const keptAs = "answers";
/** More than a person presses in an evening without a network; older presses mean nothing to anybody. */
const mostKept = 100;
const keptForMs = 12 * 3_600_000;

/**
 * The queue of presses: each is kept on the device before it is sent, and taken out when the dashboard took it.
 * A second press of the same button while the first one waits is the same press.
 */
export function openAnswerQueue(world: QueueWorld): AnswerQueue {
  const waiting = signal<readonly Said[]>(readKept(world.kept));
  const refused = signal<{ alertId: string; refusal: Refusal } | null>(null);
  const keep = (next: readonly Said[]) => {
    waiting.value = next;
    if (next.length === 0) world.kept.removeItem(keptAs);
    else world.kept.setItem(keptAs, JSON.stringify(next));
  };
  const drop = ({ sayId }: Said) => keep(waiting.value.filter((each) => each.sayId !== sayId));

  let sending: Promise<void> | null = null;
  const sendAll = async () => {
    for (let next = waiting.value[0]; next !== undefined; next = waiting.value[0]) {
      const came = await world.send(next);
      if (came === "later") return;
      drop(next);
      if (came !== "taken") refused.value = { alertId: next.alertId, refusal: came.refusal };
    }
  };
  const flush = (atMs: number): Promise<void> => {
    const fresh = waiting.value.filter((each) => atMs - each.saidAtMs < keptForMs);
    if (fresh.length < waiting.value.length) keep(fresh);
    sending ??= sendAll().finally(() => (sending = null));
    return sending;
  };
  return {
    waiting,
    refused,
    say: (alertId, answer, atMs) => {
      const isSame = (each: Said) => each.alertId === alertId && each.answer === answer;
      if (waiting.value.some(isSame)) return;
      refused.value = null;
      const press = { alertId, answer, sayId: world.newId(), saidAtMs: atMs };
      keep([...waiting.value, press].slice(-mostKept));
      void flush(atMs);
    },
    flush,
  };
}

/** What an earlier page left; what cannot be read is let go. */
function readKept(kept: QueueWorld["kept"]): readonly Said[] {
  try {
    const read = z.array(said).safeParse(JSON.parse(kept.getItem(keptAs) ?? "[]"));
    return read.success ? read.data : [];
  } catch {
    return [];
  }
}

/** Whether an earlier page left presses to send. */
export function hasKeptAnswers(kept: QueueWorld["kept"]): boolean {
  return readKept(kept).length > 0;
}
