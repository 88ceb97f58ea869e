import { describe, expect, it } from "vitest";
import { batchWords, linkRig } from "../../support/linkRig.ts";
import { aSession, aWarmth } from "../../support/outboxItems.ts";

const sessions = (count: number, from = 0) =>
  Array.from({ length: count }, (_, i) => aSession(`s-${from + i}`));

describe("sending what is in the outbox", () => {
  it("[I1] sends the boots of earlier runs first, each under its own id", async () => {
    const rig = await linkRig();
    await rig.append(sessions(2));
    rig.outbox.startBoot("boot2");
    await rig.append(sessions(1, 2));
    rig.welcome();
    rig.settle();
    expect(rig.batches).toEqual(["boot1: 1 2 after 0", "boot2: 1 after 0"]);
  });

  it("[I2] sends an item when it is durable, without being asked", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.settle();
    const appended = rig.append(sessions(1));
    expect(rig.hear()).toEqual([]);
    await appended;
    rig.settle();
    expect(rig.batches).toEqual(["boot1: 1 after 0"]);
  });

  it("[I3] sends batches that follow each other without waiting for each answer", async () => {
    const rig = await linkRig();
    await rig.append(sessions(1_200));
    rig.welcome();
    const batches = rig.hear().filter((frame) => frame.kind === "batch");
    expect(batches.length).toBeGreaterThan(2);
    expect(batches.map((batch) => batch.afterSeq)).toEqual([
      0,
      ...batches.slice(0, -1).map((batch) => batch.items.at(-1)?.seq),
    ]);
  });

  it("[F4] sends items in rising order", async () => {
    const rig = await linkRig();
    await rig.append(sessions(300));
    rig.welcome();
    for (const frame of rig.hear())
      if (frame.kind === "batch") {
        const order = frame.items.map((item) => item.seq);
        expect(order).toEqual([...order].sort((a, b) => a - b));
        expect(new Set(order).size).toBe(order.length);
      }
  });

  it("has at most four batches without an answer, and sends on with each answer", async () => {
    const rig = await linkRig();
    await rig.append(sessions(4_000));
    rig.welcome();
    const [first, ...rest] = rig.hear().filter((frame) => frame.kind === "batch");
    expect(rest).toHaveLength(3);
    if (first) rig.answerBatch(first);
    rig.pair.flush();
    expect(rig.hear().filter((frame) => frame.kind === "batch")).toHaveLength(1);
    for (const batch of rest) rig.answerBatch(batch);
    rig.pair.drop();
  });

  it("[I4] lets go of nothing before its acknowledgement", async () => {
    const rig = await linkRig();
    await rig.append(sessions(3));
    rig.welcome();
    rig.answerAll();
    expect(rig.outbox.peek(10)?.items).toHaveLength(3);
    rig.pair.flush();
    expect(rig.outbox.peek(10)).toBeNull();
  });

  it("[I5] learns from the welcome after a lost ack what is stored, and sends nothing twice", async () => {
    const rig = await linkRig();
    await rig.append(sessions(3));
    rig.welcome();
    rig.answerAll();
    rig.pair.cut();
    rig.time.pass(250);
    rig.welcome();
    rig.settle();
    expect(rig.batches).toEqual(["boot1: 1 2 3 after 0"]);
    expect(rig.outbox.peek(10)).toBeNull();
  });

  it("[I6] begins again where a refused batch must begin, once for all that were under way behind it", async () => {
    const rig = await linkRig();
    await rig.append(sessions(1_500));
    rig.welcome();
    const batches = rig.hear().filter((frame) => frame.kind === "batch");
    // The first batch never reaches the other end; those behind it are refused.
    for (const batch of batches.slice(1)) rig.answerBatch(batch);
    rig.pair.flush();
    const again = rig.hear().filter((frame) => frame.kind === "batch");
    expect(again.map(batchWords).slice(0, batches.length)).toEqual(batches.map(batchWords));
    expect(again.length).toBeLessThanOrEqual(4);
    for (const batch of again) rig.answerBatch(batch);
    rig.settle();
    expect(rig.end.throughOf("boot1")).toBe(1_500);
  });

  it("[I7] sends again what a restored dashboard has lost", async () => {
    const rig = await linkRig();
    await rig.append(sessions(5));
    rig.welcome();
    rig.settle();
    rig.end.restore("boot1", 2);
    rig.pair.close(1001, "going away");
    rig.time.pass(250);
    rig.welcome();
    rig.settle();
    expect(rig.batches).toEqual(["boot1: 1 2 3 4 5 after 0", "boot1: 3 4 5 after 2"]);
  });

  it("[I7] sends everything it keeps to a dashboard that does not know the boot", async () => {
    const rig = await linkRig();
    await rig.append(sessions(3));
    rig.welcome();
    rig.settle();
    rig.end.restore("boot1", 0);
    rig.pair.cut();
    rig.time.pass(250);
    rig.welcome();
    rig.settle();
    expect(rig.batches.at(-1)).toBe("boot1: 1 2 3 after 0");
  });

  it("[I8] leaves thinned numbers out of a batch and follows on all the same", async () => {
    const rig = await linkRig();
    rig.welcome();
    await rig.append([aSession("a"), aWarmth(30)]);
    rig.settle();
    await rig.append([aWarmth(31), aSession("b")]);
    const batch = rig.hear().find((frame) => frame.kind === "batch");
    if (!batch) throw new Error("no batch");
    rig.answerBatch({ ...batch, items: batch.items.filter((item) => item.class === "fact") });
    rig.pair.flush();
    expect(rig.outbox.peek(10)).toBeNull();
  });

  it("[I9] sends an item of a kind it does not know itself, left by a newer run, as it is", async () => {
    const rig = await linkRig();
    const newer = { ...aSession("a"), kind: "balloon", colour: "red" } as unknown as ReturnType<
      typeof aSession
    >;
    await rig.append([newer]);
    rig.welcome();
    rig.settle();
    expect(rig.end.itemsOf("boot1")[0]).toMatchObject({ kind: "balloon", colour: "red" });
  });

  it.each([4413, 1009])("[F2] halves its batches after close code %i", async (code) => {
    const rig = await linkRig();
    await rig.append(sessions(600));
    rig.welcome();
    const sizes = () => rig.hear().flatMap((frame) => (frame.kind === "batch" ? [frame.items.length] : []));
    expect(sizes()[0]).toBe(500);
    rig.pair.close(code);
    rig.time.pass(500);
    rig.welcome();
    expect(sizes().slice(0, 2)).toEqual([250, 250]);
  });

  it("hangs up when a batch stays without an answer, and sends it again", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.settle();
    await rig.append(sessions(1));
    rig.hear();
    for (let i = 0; i < 3; i++) {
      rig.time.pass(9_999);
      for (const frame of rig.hear()) if (frame.kind === "beat") rig.answerBeat(frame.t1MonoMs);
      rig.pair.flush();
    }
    rig.time.pass(3);
    expect(rig.pair.endings).toEqual(["4408 a batch was not answered"]);
    rig.time.pass(250);
    rig.welcome();
    rig.settle();
    expect(rig.batches).toEqual(["boot1: 1 after 0"]);
  });
});
