import fc from "fast-check";
import { appendFileSync, cpSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { type Outbox, type Position, openOutbox } from "../../../agent/outbox/outbox.ts";
import { keptLog } from "../../support/keptLog.ts";
import { aSession, aWarmth } from "../../support/outboxItems.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { StoringEnd } from "../../support/storingEnd.ts";

const step = fc.oneof(
  { weight: 5, arbitrary: fc.record({ do: fc.constant("append" as const), items: fc.nat(4) }) },
  {
    weight: 5,
    arbitrary: fc.record({ do: fc.constant("send" as const), limit: fc.integer({ min: 1, max: 5 }) }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("sendLosingAck" as const), limit: fc.constant(3) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("reconnect" as const) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("restart" as const) }) },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("newBoot" as const) }) },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant("kill" as const), torn: fc.uint8Array({ maxLength: 40 }) }),
  },
  { weight: 1, arbitrary: fc.record({ do: fc.constant("restoreBackup" as const), keep: fc.nat(6) }) },
);
type Step = typeof step extends fc.Arbitrary<infer One> ? One : never;

/** An agent's outbox and a storing end, moved by single steps. */
class Line {
  readonly #top = scratchFolder();
  readonly end = new StoringEnd();
  /** Ids whose append had resolved, in order, and ids that a kill caught on the way. */
  readonly durable: string[] = [];
  readonly perhaps = new Set<string>();
  #folders = 0;
  #boots = 0;
  #items = 0;
  #sent: Position | null = null;
  #outbox: Outbox | null = null;

  async take(step: Step): Promise<void> {
    switch (step.do) {
      case "append":
        return this.#append(step.items);
      case "send":
        return this.#send(step.limit, true);
      case "sendLosingAck":
        return this.#send(step.limit, false);
      case "reconnect":
        return this.#settle(await this.#open());
      case "restart":
        await this.#outbox?.close();
        return this.#forgetRun();
      case "newBoot":
        return (await this.#open()).startBoot(this.#nextBoot());
      case "kill":
        return this.#kill(Buffer.from(step.torn));
      case "restoreBackup":
        for (const bootId of this.end.boots()) this.end.restore(bootId, step.keep);
        return this.#settle(await this.#open());
    }
  }

  /** Everything that is left goes over, as after a night on a good network. */
  async drain(): Promise<void> {
    const outbox = await this.#open();
    this.#settle(outbox);
    while (outbox.peek(1, this.#sent)) await this.#send(5, true);
    await outbox.close();
  }

  async #append(items: number): Promise<void> {
    const outbox = await this.#open();
    const ids = this.#nextIds(items);
    await outbox.append(ids.map((id, i) => (i % 2 === 0 ? aSession(id) : { ...aWarmth(30), sensor: id })));
    this.durable.push(...ids);
  }

  async #send(limit: number, isAckHeard: boolean): Promise<void> {
    const outbox = await this.#open();
    const batch = outbox.peek(limit, this.#sent);
    const last = batch?.items.at(-1);
    if (!batch || !last) return;
    const answer = this.end.take(batch);
    this.#sent = { bootId: batch.bootId, seq: last.seq };
    if (!isAckHeard) return;
    if (answer.kind === "ack") return outbox.dropThrough(answer.bootId, answer.seq);
    outbox.rewindTo(answer.bootId, answer.seq);
    this.#sent = null;
  }

  #settle(outbox: Outbox): void {
    this.#sent = null;
    const stored = new Map(this.end.stored().map(({ bootId, throughSeq }) => [bootId, throughSeq]));
    for (const bootId of outbox.boots()) {
      outbox.rewindTo(bootId, stored.get(bootId) ?? 0);
      outbox.dropThrough(bootId, stored.get(bootId) ?? 0);
    }
  }

  /** The disk as a kill leaves it: a copy taken while an append is under way, with a torn record at its end. */
  async #kill(torn: Buffer): Promise<void> {
    const outbox = await this.#open();
    const ids = this.#nextIds(3);
    for (const id of ids) this.perhaps.add(id);
    const appending = outbox.append(ids.map(aSession));
    await new Promise((resolve) => setImmediate(resolve));
    const from = this.#folder();
    this.#folders += 1;
    cpSync(from, this.#folder(), { recursive: true });
    await appending;
    await outbox.close();
    this.#forgetRun();
    const last = readdirSync(this.#folder())
      .filter((name) => name.endsWith(".seg"))
      .at(-1);
    if (last !== undefined) appendFileSync(join(this.#folder(), last), torn);
  }

  async #open(): Promise<Outbox> {
    if (this.#outbox) return this.#outbox;
    this.#outbox = await openOutbox({
      folder: this.#folder(),
      limits: { segmentBytes: 700 },
      clock: () => ({ wallMs: 0, monoMs: 0 }),
      wait: () => Promise.resolve(),
      log: keptLog().log,
    });
    this.#outbox.startBoot(this.#nextBoot());
    this.#settle(this.#outbox);
    return this.#outbox;
  }

  #forgetRun(): void {
    this.#outbox = null;
    this.#sent = null;
  }

  #folder(): string {
    return join(this.#top, String(this.#folders));
  }

  #nextBoot(): string {
    this.#boots += 1;
    return `boot${this.#boots}`;
  }

  #nextIds(count: number): string[] {
    return Array.from({ length: count }, () => `id-${(this.#items += 1)}`);
  }
}

describe("an outbox under any order of steps", () => {
  it("[I5] brings every durable item over exactly once and in order, through restarts, kills and lost acks", async () => {
    const line = fc.array(step, { minLength: 5, maxLength: 30 });
    await fc.assert(
      fc.asyncProperty(line, async (steps) => {
        const line = new Line();
        for (const one of steps) await line.take(one);
        await line.drain();
        const stored = line.end.boots().flatMap((bootId) => line.end.itemsOf(bootId));
        const ids = stored.map((item) => String(item["sessionId"] ?? item["sensor"]));
        expect(ids.filter((id) => !line.perhaps.has(id)).sort()).toEqual([...line.durable].sort());
        expect(new Set(ids).size).toBe(ids.length);
        for (const bootId of line.end.boots()) {
          const order = line.end.itemsOf(bootId).map((item) => item.seq);
          expect(order).toEqual(order.map((_, i) => i + 1));
        }
      }),
      { numRuns: 60, seed: 20_261_120 },
    );
  }, 120_000);
});
