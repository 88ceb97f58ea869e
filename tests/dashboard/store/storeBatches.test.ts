import type { AnyItem } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { receiveBatch } from "../../../dashboard/ingest/receiveBatch.ts";
import { unknownClock } from "../../../dashboard/ingest/bootClock.ts";
import type { BatchToStore } from "../../../dashboard/store/storeBatches.ts";
import { sentSession, sentWarmth } from "../../support/aLinkClient.ts";
import { addAgent, aStore } from "../../support/aStore.ts";
import { storedItems } from "../../support/readStore.ts";

type Sent = {
  readonly agentId: string;
  readonly bootId: string;
  readonly afterSeq: number;
  readonly items: AnyItem[];
};

function toStore(boothId: string, { agentId, bootId, afterSeq, items }: Sent): BatchToStore {
  const origin = { agentId, boothId, clock: unknownClock(bootId), wallBehindMs: null };
  const receivedAtMs = Date.UTC(2026, 5, 20, 20);
  return receiveBatch({ kind: "batch", bootId, afterSeq, items }, { ...origin, receivedAtMs }).batch;
}

/** An item whose every field follows from its boot and number, so that two of one place are the same. */
function anItem(bootId: string, seq: number): AnyItem {
  return seq % 3 === 0 ? sentWarmth(seq, 20 + seq) : sentSession(seq, { sessionId: `${bootId} ${seq}` });
}

const boots = ["boot-1", "boot-2"];
const agents = ["agent-1", "agent-2"];

/** Stretches of a boot's numbers that overlap, repeat, leave holes and come in any order. */
const sending: fc.Arbitrary<Sent> = fc
  .record({
    agentId: fc.constantFrom(...agents),
    bootId: fc.constantFrom(...boots),
    afterSeq: fc.nat(25),
    steps: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 1, maxLength: 8 }),
  })
  .map(({ agentId, bootId, afterSeq, steps }) => {
    const items: AnyItem[] = [];
    let seq = afterSeq;
    for (const step of steps) items.push(anItem(`${agentId} ${bootId}`, (seq += step)));
    return { agentId, bootId, afterSeq, items };
  });

/** What the rules say in the fewest words: per agent and boot the numbers stored, and how far they reach. */
class Model {
  readonly stored = new Map<string, number[]>();
  take({ agentId, bootId, afterSeq, items }: Sent): { kind: string; upTo: number } {
    const key = `${agentId} ${bootId}`;
    const seqs = this.stored.get(key) ?? [];
    const through = seqs.at(-1) ?? 0;
    if (afterSeq > through) return { kind: "resend", upTo: through };
    const fresh = items.map(({ seq }) => seq).filter((seq) => seq > through);
    this.stored.set(key, [...seqs, ...fresh]);
    return { kind: "stored", upTo: fresh.at(-1) ?? through };
  }
}

describe("storing batches", () => {
  it("[I5] keeps every number once, whatever is resent, overlaps or comes out of order, in groups of any size", async () => {
    const groups = fc.array(fc.array(sending, { minLength: 1, maxLength: 6 }), { maxLength: 8 });
    await fc.assert(
      fc.asyncProperty(groups, async (sent) => {
        const { store, boothId, dataDir } = await aStore();
        for (const agentId of agents) await addAgent(store, boothId, agentId);
        const model = new Model();
        for (const group of sent) {
          const outcomes = await store.storeBatches(group.map((batch) => toStore(boothId, batch)));
          const said = outcomes.map((outcome) =>
            outcome.kind === "resend"
              ? { kind: "resend", upTo: outcome.afterSeq }
              : { kind: "stored", upTo: outcome.throughSeq },
          );
          expect(said).toEqual(group.map((batch) => model.take(batch)));
        }
        const expected = [...model.stored.values()].flat().sort((a, b) => a - b);
        const found = storedItems(dataDir).map(({ seq }) => seq);
        expect(found.sort((a, b) => a - b)).toEqual(expected);
        await store.close();
      }),
      { seed: 5, numRuns: 25, endOnFailure: true },
    );
  });

  it("gives only what was not there before to be folded", async () => {
    const { store, boothId } = await aStore();
    await addAgent(store, boothId);
    const first = {
      agentId: "agent-1",
      bootId: "boot-1",
      afterSeq: 0,
      items: [anItem("x", 1), anItem("x", 2)],
    };
    const second = { ...first, items: [anItem("x", 1), anItem("x", 2), anItem("x", 3)] };
    const outcomes = await store.storeBatches([first, second].map((batch) => toStore(boothId, batch)));
    const folded = outcomes.map((outcome) =>
      outcome.kind === "stored" ? outcome.newItems.map(({ seq }) => seq) : null,
    );
    expect(folded).toEqual([[1, 2], [3]]);
  });

  it("[I4] leaves nothing of any batch behind when one of the transaction cannot be stored", async () => {
    const { store, boothId, dataDir } = await aStore();
    await addAgent(store, boothId);
    const good = { agentId: "agent-1", bootId: "boot-1", afterSeq: 0, items: [anItem("x", 1)] };
    const ofNobody = { ...good, agentId: "nobody" };
    const both = [good, ofNobody].map((batch) => toStore(boothId, batch));
    await expect(store.storeBatches(both)).rejects.toThrow(/foreign key/i);
    expect(storedItems(dataDir)).toEqual([]);
    await store.storeBatches([toStore(boothId, good)]);
    expect(storedItems(dataDir)).toHaveLength(1);
  });
});
