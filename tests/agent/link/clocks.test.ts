import { describe, expect, it } from "vitest";
import { linkRig, trueMinusMonoMs } from "../../support/linkRig.ts";
import { aSession } from "../../support/outboxItems.ts";

describe("clock samples", () => {
  it("[T1] sends the sample of greeting and welcome before its first batch", async () => {
    const rig = await linkRig();
    await rig.append([aSession("a")]);
    const greetedMonoMs = rig.time.clock().monoMs;
    rig.welcome();
    const [beat, batch] = rig.hear();
    expect(beat).toMatchObject({
      kind: "beat",
      sample: { t1MonoMs: greetedMonoMs, t2Ms: greetedMonoMs + trueMinusMonoMs, t4MonoMs: greetedMonoMs },
    });
    expect(batch?.kind).toBe("batch");
  });

  it("[T1] sends with each beat the exchange of the beat before it", async () => {
    const rig = await linkRig();
    rig.welcome();
    const firstT1MonoMs = rig.time.clock().monoMs;
    rig.time.pass(40);
    rig.answerAll();
    rig.time.pass(60);
    rig.pair.flush();
    rig.time.pass(9_900);
    const [beat] = rig.hear();
    const t2Ms = firstT1MonoMs + 40 + trueMinusMonoMs;
    expect(beat).toMatchObject({
      kind: "beat",
      t1MonoMs: firstT1MonoMs + 10_000,
      sample: { t1MonoMs: firstT1MonoMs, t2Ms, t3Ms: t2Ms, t4MonoMs: firstT1MonoMs + 100 },
    });
  });

  it("[T1] sends no sample with a beat when the one before was not answered, or answered late", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.answerAll();
    rig.time.pass(10_000);
    const [second] = rig.hear();
    expect(second).toMatchObject({ kind: "beat", sample: null });
    // The answer to the first beat arrives after the second was sent.
    rig.pair.flush();
    rig.time.pass(10_000);
    expect(rig.hear()[0]).toMatchObject({ kind: "beat", sample: null });
  });

  it("[T2] has timestamps of the steady clock, also when the wall clock is stepped in between", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.hear();
    rig.time.pass(10_000);
    const t1MonoMs = rig.time.clock().monoMs;
    rig.answerAll();
    rig.time.stepWall(-3_600_000);
    rig.time.pass(20);
    rig.pair.flush();
    rig.time.pass(9_980);
    expect(rig.hear()[0]).toMatchObject({
      sample: { t1MonoMs, t4MonoMs: t1MonoMs + 20, t2Ms: t1MonoMs + trueMinusMonoMs },
    });
  });

  it("says that this computer's clock is wrong, and by how much", async () => {
    const rig = await linkRig();
    const { wallMs, monoMs } = rig.time.clock();
    rig.time.stepWall(monoMs + trueMinusMonoMs - wallMs - 95_000);
    rig.welcome();
    expect(rig.kept.sentences()).toContain(
      "This computer's clock is 95 s behind; the dashboard corrects it.",
    );
  });

  it("[T6] greets anew with the new boot, at once", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.settle();
    rig.outbox.startBoot("boot2");
    rig.link.bootBegun();
    expect(rig.pair.endings).toEqual(["1000 a new boot begins"]);
    await rig.append([aSession("a")]);
    rig.time.pass(0);
    rig.pair.accept();
    expect(rig.hear()).toMatchObject([{ kind: "greet", bootId: "boot2", lastSeq: 1 }]);
  });
});
