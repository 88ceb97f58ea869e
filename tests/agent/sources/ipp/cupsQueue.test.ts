import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { ippSource } from "../../../../agent/sources/ipp/ippSource.ts";
import { ippSourceConfig } from "../../../../agent/sources/ipp/ippSourceConfig.ts";
import type { CupsBench } from "../../../support/cupsBench.ts";
import { cupsBench } from "../../../support/cupsBench.ts";
import { needsTool } from "../../../support/needsTool.ts";
import { until } from "../../../support/until.ts";
import type { WatchedSource } from "../../../support/watchSource.ts";
import { realClock, tempFolder, watchSource } from "../../../support/watchSource.ts";

/** A real CUPS with a made-up printer behind it; all jobs go in by `lp`. */
needsTool("cupsd", "apt-get install cups cups-client")("a CUPS queue", () => {
  let bench: CupsBench;
  let state: Awaited<ReturnType<typeof tempFolder>>;
  let watched: WatchedSource;
  let isKept = true;

  beforeAll(async () => {
    bench = await cupsBench();
  });
  afterAll(() => bench.close());
  beforeEach(async () => {
    isKept = true;
    state = await tempFolder();
    await watchQueue();
  });
  afterEach(async () => {
    await bench.release();
    await watched.close();
    await bench.cups("cancel", "-a", "booth");
    await bench.cups("cupsenable", "booth");
    await state.remove();
  });

  /** The agent begins, with what it remembers of former times. */
  async function watchQueue(more: object = {}): Promise<void> {
    const config = ippSourceConfig.parse({ kind: "ipp", uri: bench.uri, eventsEveryMs: 100, ...more });
    const source = ippSource(config, { clock: realClock, stateFolder: state.path });
    watched = await watchSource(source, () => isKept);
    if (isKept) await until(() => watched.items("printerState").length > 0, "the queue is read");
  }
  const prints = () => watched.items("print");
  const lastState = () => watched.items("printerState").at(-1);
  const lastQueue = () => watched.items("queue").at(-1)?.queuedJobs;

  test("tells its state once at the start", () => {
    expect(watched.items("printerState")).toEqual([
      { class: "fact", kind: "printerState", queue: "booth", state: "idle", reasons: [], message: null },
    ]);
  });

  test("counts a job sent by lp once, as one piece", async () => {
    await bench.lp();
    await until(() => prints().length > 0, "the print is told");
    await bench.lp();
    await until(() => prints().length > 1, "the second print is told");
    expect(prints()).toMatchObject([
      { copies: 1, pitches: 1, queue: "booth" },
      { copies: 1, pitches: 1, queue: "booth" },
    ]);
    expect(new Set(prints().map((print) => print.printId)).size).toBe(2);
  });

  test("counts a job of two copies as two", async () => {
    await bench.lp({ copies: 2 });
    await until(() => prints().length > 0, "the print is told");
    expect(prints()).toMatchObject([{ copies: 2, pitches: 2 }]);
  });

  test("counts a 6x8 as two lengths of paper", async () => {
    await bench.lp({ copies: 2, media: "oe_photo-6x8_6x8in" });
    await until(() => prints().length > 0, "the print is told");
    expect(prints()).toMatchObject([{ copies: 2, pitches: 4 }]);
  });

  test("shows the meters fall with the prints", async () => {
    await bench.setLeft(200);
    await bench.lp({ copies: 2 });
    await until(() => prints().length > 0, "the print is told");
    const left = () =>
      watched
        .items("media")
        .filter(({ part }) => part === "kit")
        .at(-1)?.sheetsLeft;
    await until(() => left() === 198, "198 sheets are left");
    const byPart = Object.fromEntries(watched.items("media").map((media) => [media.part, media]));
    expect(byPart).toMatchObject({
      kit: { sheetsLeft: 198, leftPct: null },
      "Dye ribbon": { sheetsLeft: null, leftPct: 49 },
      Paper: { sheetsLeft: null, leftPct: null },
    });
    expect(byPart["kit"]?.ageMs).toBeLessThan(20_000);
  });

  test("shows a jam appear and clear while a job waits", async () => {
    await bench.hold();
    await bench.lp();
    await until(() => lastState()?.state === "processing", "the job is on");
    await bench.say("STATE: +media-jam-error");
    await until(() => lastState()?.reasons.includes("media-jam-error") ?? false, "the jam shows");
    expect(lastState()?.state).toBe("processing");
    await bench.say("STATE: -media-jam-error");
    await until(() => lastState()?.reasons.length === 0, "the jam is cleared");
    expect(prints()).toEqual([]);
    await bench.release();
    await until(() => prints().length === 1, "the print is told");
  });

  test("shows empty media although the queue says it is processing", async () => {
    await bench.hold();
    await bench.lp();
    await bench.say("STATE: +media-empty-error,media-needed,marker-supply-empty-error");
    await until(() => (lastState()?.reasons.length ?? 0) === 3, "three reasons show");
    expect(lastState()?.state).toBe("processing");
    expect([...(lastState()?.reasons ?? [])].sort()).toEqual([
      "marker-supply-empty-error",
      "media-empty-error",
      "media-needed",
    ]);
    await bench.say("STATE: -media-empty-error,media-needed,marker-supply-empty-error");
    await until(() => lastState()?.reasons.length === 0, "new media is in");
  });

  test("shows the queue rise and fall, held jobs included", async () => {
    await bench.hold();
    await bench.lp();
    await bench.lp();
    await bench.lp({ isHeld: true });
    await until(() => lastQueue() === 3, "three jobs wait");
    await bench.release();
    await until(() => prints().length === 2 && lastQueue() === 1, "the held one is left");
  });

  test("shows a paused printer, and goes on when it is let go", async () => {
    await bench.cups("cupsdisable", "booth");
    await until(() => lastState()?.state === "stopped", "it is stopped");
    expect(lastState()?.reasons).toContain("paused");
    await bench.lp();
    await until(() => lastQueue() === 1, "a job waits");
    expect(prints()).toEqual([]);
    await bench.cups("cupsenable", "booth");
    await until(() => prints().length === 1, "the print is told");
    await until(() => lastState()?.state === "idle", "it is idle again");
    expect(lastState()?.reasons).toEqual([]);
  });

  test("makes no print of held, cancelled and failed jobs", async () => {
    const held = await bench.lp({ isHeld: true });
    await until(() => lastQueue() === 1, "the held job shows");
    await bench.cups("cancel", `${held}`);
    await bench.hold();
    const cancelled = await bench.lp();
    await until(() => lastState()?.state === "processing", "the job is on");
    await bench.cups("cancel", `${cancelled}`);
    await bench.release();
    await bench.cups("lpadmin", "-p", "booth", "-o", "printer-error-policy=abort-job");
    await bench.setFailing(true);
    await bench.lp();
    await until(async () => !(await bench.cups("lpstat", "-o")).includes("booth-"), "the failed job is gone");
    await bench.setFailing(false);
    await bench.lp();
    await until(() => prints().length > 0, "the good job is told");
    expect(prints()).toHaveLength(1);
  });

  test("a held job that is let go after later ones is counted, as are those", async () => {
    const held = await bench.lp({ isHeld: true });
    await bench.lp();
    await bench.lp();
    await until(() => prints().length === 2, "the later jobs are told");
    await bench.cups("lp", "-i", `${held}`, "-H", "resume");
    await until(() => prints().length === 3, "the held job is told");
    expect(new Set(prints().map((print) => print.printId)).size).toBe(3);
  });

  test("a finished job that is sent to the printer again is another print", async () => {
    const job = await bench.lp();
    await until(() => prints().length === 1, "the print is told");
    await bench.hold();
    await bench.cups("lp", "-i", `${job}`, "-H", "restart");
    await until(() => lastState()?.state === "processing", "it is printed again");
    // The printer's times are whole seconds, and a real sheet takes eight of them.
    const second = Math.floor(Date.now() / 1_000);
    await until(() => Math.floor(Date.now() / 1_000) > second, "the next second has begun");
    await bench.release();
    await until(() => prints().length === 2, "the second print is told");
    expect(prints().map((print) => print.copies)).toEqual([1, 1]);
    expect(new Set(prints().map((print) => print.printId)).size).toBe(2);
  });

  test("a restart of the print server is a fault and its end, and no job is told twice", async () => {
    await bench.lp();
    await until(() => prints().length === 1, "the print is told");
    await bench.stop();
    await until(() => watched.fault() === "unreachable", "the server is away");
    await bench.start();
    await until(() => watched.fault() === null, "the server is back");
    await bench.lp();
    await until(() => prints().length === 2, "the next print is told");
    expect(new Set(prints().map((print) => print.printId)).size).toBe(2);
    await until(() => lastState()?.state === "idle", "it is idle again");
  });

  test("jobs waiting when the print server restarts are counted afterwards", async () => {
    await bench.cups("cupsdisable", "booth");
    await bench.lp();
    await bench.lp({ copies: 2 });
    await until(() => lastQueue() === 2, "two jobs wait");
    await bench.restart();
    await bench.cups("cupsenable", "booth");
    await until(() => prints().length === 2, "both are told");
    expect(prints().map((print) => print.copies)).toEqual([1, 2]);
  });

  test("jobs that finish while the agent is down are told when it is back, none twice", async () => {
    await bench.lp();
    await until(() => prints().length === 1, "the first print is told");
    const before = prints();
    await watched.close();
    await bench.lp();
    await bench.lp({ copies: 2 });
    await until(async () => !(await bench.cups("lpstat", "-o")).includes("booth-"), "the jobs are done");
    await watchQueue();
    await until(() => prints().length === 2, "both prints are told");
    expect(prints().map((print) => print.copies)).toEqual([1, 2]);
    expect(prints().map((print) => print.printId)).not.toContain(before[0]?.printId);
    await watched.close();
    await watchQueue();
    await bench.lp();
    await until(() => prints().length > 0, "the next print is told");
    expect(prints()).toHaveLength(1);
  });

  test("what the outbox could not keep is told again, with the same id", async () => {
    isKept = false;
    await bench.lp();
    const offered = () => JSON.stringify(watched.refused).match(/"printId":"[^"]+"/)?.[0];
    await until(() => offered() !== undefined, "the print is offered");
    expect(prints()).toEqual([]);
    isKept = true;
    await until(() => prints().length === 1, "the print is told");
    expect(offered()).toBe(`"printId":"${prints()[0]?.printId}"`);
  });

  test("jobs from before the agent's first start are not its own", async () => {
    await watched.close();
    await bench.lp();
    await until(async () => !(await bench.cups("lpstat", "-o")).includes("booth-"), "the job is done");
    await state.remove();
    await watchQueue();
    await bench.lp();
    await until(() => prints().length > 0, "the later print is told");
    expect(prints()).toHaveLength(1);
  });

  test("a queue that is not there is not found, and read once it is made", async () => {
    await watched.close();
    const uri = bench.uri.replace(/booth$/, "spare");
    const config = ippSourceConfig.parse({ kind: "ipp", uri });
    watched = await watchSource(ippSource(config, { clock: realClock, stateFolder: state.path }));
    await until(() => watched.fault() === "notFound", "it is not found");
    await bench.cups("lpadmin", "-p", "spare", "-E", "-v", "boothsim://sim", "-m", "raw");
    await until(() => lastState()?.queue === "spare", "it is read");
    await bench.cups("lpadmin", "-x", "spare");
    await until(() => watched.fault() === "notFound", "it is gone again");
  });
});
