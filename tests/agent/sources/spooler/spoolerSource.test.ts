import { describe, expect, onTestFinished, test } from "vitest";
import { spoolerSource } from "../../../../agent/sources/spooler/spoolerSource.ts";
import { spoolerSourceConfig } from "../../../../agent/sources/spooler/spoolerSourceConfig.ts";
import type { FakeSpooler } from "../../../support/aFakeSpooler.ts";
import { aFakeSpooler } from "../../../support/aFakeSpooler.ts";
import { aHandClock } from "../../../support/aHandClock.ts";
import { aSpoolerLine, aWindowsJob, aWindowsPrinter } from "../../../support/aSpoolerLine.ts";
import { scratchFolder } from "../../../support/scratchFolder.ts";
import { until } from "../../../support/until.ts";
import type { WatchedSource } from "../../../support/watchSource.ts";
import { watchSource } from "../../../support/watchSource.ts";

const sixAtMs = Date.UTC(2031, 5, 14, 18);

type Rig = {
  readonly fake: FakeSpooler;
  readonly watched: WatchedSource;
  readonly hand: ReturnType<typeof aHandClock>;
  /** Has the child write this, and waits until the source has taken it. */
  readonly say: (bytes: Buffer | string) => Promise<void>;
};

/** A spooler source whose PowerShell is a fake child, and a clock that stands still at six. */
async function aRig(
  options: { settings?: object; folder?: string; isKept?: () => boolean } = {},
): Promise<Rig> {
  const fake = await aFakeSpooler();
  const hand = aHandClock(sixAtMs);
  const config = spoolerSourceConfig.parse({
    kind: "spooler",
    queue: "Booth",
    restartMs: 50,
    ...options.settings,
  });
  const surroundings = { clock: hand.clock, stateFolder: options.folder ?? scratchFolder() };
  const watched = await watchSource(spoolerSource(config, surroundings, fake.command), options.isKept);
  onTestFinished(() => watched.close());
  await fake.started(1);
  const said = (): number => watched.answers.length + watched.refused.length;
  return {
    fake,
    watched,
    hand,
    async say(bytes) {
      const before = said();
      fake.write(bytes);
      await until(() => said() > before, "the line was taken");
    },
  };
}

describe("what is told of a queue", () => {
  test("state, counter and queue once, and again only when they change", async () => {
    const { watched, say } = await aRig();
    const counters = [{ Name: "Booth", TotalPagesPrinted: 40 }];
    await say(aSpoolerLine({ counters }));
    await say(aSpoolerLine({ counters }));
    await say(aSpoolerLine({ counters: [{ Name: "Booth", TotalPagesPrinted: 41 }] }));
    expect(watched.items("printerState")).toEqual([
      { class: "fact", kind: "printerState", queue: "Booth", state: "idle", reasons: [], message: null },
    ]);
    expect(watched.items("counter").map(({ pitchesEver }) => pitchesEver)).toEqual([40, 41]);
    expect(watched.items("queue").map(({ queuedJobs }) => queuedJobs)).toEqual([0]);
  });
  test("the queue's length each minute, so that a silent minute is one without news", async () => {
    const { watched, hand, say } = await aRig();
    await say(aSpoolerLine());
    hand.pass(59_000);
    await say(aSpoolerLine());
    hand.pass(1_000);
    await say(aSpoolerLine());
    expect(watched.items("queue")).toHaveLength(2);
  });
  test("the counter in pitches, and again from the front when the spooler was restarted", async () => {
    const { watched, say } = await aRig({ settings: { pitchesPerPage: 2 } });
    await say(aSpoolerLine({ counters: [{ Name: "Booth", TotalPagesPrinted: 41 }] }));
    await say(aSpoolerLine({ counters: [{ Name: "Booth", TotalPagesPrinted: 0 }] }));
    expect(watched.items("counter").map(({ pitchesEver }) => pitchesEver)).toEqual([82, 0]);
  });
  test("without counters the rest is told all the same", async () => {
    const { watched, say } = await aRig();
    await say(aSpoolerLine({ counters: null, faults: { counters: "Invalid class" } }));
    expect(watched.items("counter")).toEqual([]);
    expect(watched.items("printerState")).toHaveLength(1);
  });
  test("a list of one that PowerShell made a bare object of, and none that it made nothing of", async () => {
    const { watched, say } = await aRig();
    await say(aSpoolerLine({ printers: aWindowsPrinter(), jobs: aWindowsJob(7), counters: null }));
    expect(watched.items("queue")).toMatchObject([{ queuedJobs: 1 }]);
    await say(aSpoolerLine({ jobs: null }));
    expect(watched.items("print")).toHaveLength(1);
  });
});

describe("prints", () => {
  test("a job that was there and has gone is one print of its pages", async () => {
    const { watched, say } = await aRig({ settings: { pitchesPerPage: 2 } });
    await say(aSpoolerLine({ jobs: [aWindowsJob(7, { TotalPages: 3 })] }));
    expect(watched.items("print")).toEqual([]);
    await say(aSpoolerLine());
    await say(aSpoolerLine());
    expect(watched.items("print")).toMatchObject([
      { copies: 3, pitches: 6, queue: "Booth", basis: "jobs", sessionId: null },
    ]);
  });
  test("a job without pages is one page, and jobs of other queues are none", async () => {
    const { watched, say } = await aRig();
    const other = aWindowsJob(8, { Name: "Office, 8" });
    await say(aSpoolerLine({ jobs: [aWindowsJob(7, { TotalPages: 0 }), other] }));
    await say(aSpoolerLine());
    expect(watched.items("print").map(({ copies }) => copies)).toEqual([1]);
  });
  test("a job that is kept listed after it was printed counts once", async () => {
    const { watched, say } = await aRig();
    for (const StatusMask of [0x10, 0x90, 0x80, 0x2080])
      await say(aSpoolerLine({ jobs: [aWindowsJob(7, { StatusMask })] }));
    await say(aSpoolerLine());
    expect(watched.items("print")).toHaveLength(1);
    expect(watched.items("queue").map(({ queuedJobs }) => queuedJobs)).toEqual([1, 0]);
  });
  test("what was printed before the agent first came is not counted", async () => {
    const { watched, say } = await aRig();
    await say(aSpoolerLine({ jobs: [aWindowsJob(7, { StatusMask: 0x80 })] }));
    await say(aSpoolerLine());
    expect(watched.items("print")).toEqual([]);
  });
  test("jobs that cannot be read have not gone", async () => {
    const { watched, say } = await aRig();
    await say(aSpoolerLine({ jobs: [aWindowsJob(7)] }));
    await say(aSpoolerLine({ faults: { jobs: "Access denied" } }));
    expect(watched.items("queue").at(-1)).toMatchObject({ queuedJobs: null });
    expect(watched.items("print")).toEqual([]);
  });
  test("a queue that has vanished, as while the spooler restarts, has printed nothing", async () => {
    const { watched, say } = await aRig();
    await say(aSpoolerLine({ jobs: [aWindowsJob(7)] }));
    await say(aSpoolerLine({ printers: [] }));
    expect(watched.fault()).toBe("notFound");
    await say(aSpoolerLine({ jobs: [aWindowsJob(7)] }));
    expect(watched.items("print")).toEqual([]);
    // After the outage all is told anew.
    expect(watched.items("printerState")).toHaveLength(2);
  });
  test("what the outbox did not take is told at the next look", async () => {
    let isKept = true;
    const { watched, say } = await aRig({ isKept: () => isKept });
    await say(aSpoolerLine({ jobs: [aWindowsJob(7)] }));
    isKept = false;
    await say(aSpoolerLine());
    isKept = true;
    await say(aSpoolerLine());
    await say(aSpoolerLine());
    expect(watched.items("print")).toHaveLength(1);
  });
});

describe("over a restart of the agent", () => {
  test("no job is counted twice, and one that went meanwhile is dated by when it was sent", async () => {
    const folder = scratchFolder();
    const first = await aRig({ folder });
    await first.say(aSpoolerLine({ jobs: [aWindowsJob(1), aWindowsJob(2, { StatusMask: 0x80 })] }));
    await first.say(aSpoolerLine({ jobs: [aWindowsJob(1, { StatusMask: 0x80 }), aWindowsJob(3)] }));
    expect(first.watched.items("print")).toHaveLength(1);
    await first.watched.close();
    const second = await aRig({ folder });
    second.hand.pass(600_000);
    await second.say(aSpoolerLine({ jobs: [aWindowsJob(1, { StatusMask: 0x80 })] }));
    // Job 3 was sent three seconds past six; it is ten past now.
    expect(second.watched.sourceItems("print").map(({ agoMs }) => agoMs)).toEqual([597_000]);
    const ids = [...first.watched.items("print"), ...second.watched.items("print")].map(
      ({ printId }) => printId,
    );
    expect(new Set(ids).size).toBe(2);
  });
  test("a number that begins again at 1 is another job", async () => {
    const { watched, say } = await aRig();
    const again = aWindowsJob(1, { TimeSubmitted: "2031-06-14T19:30:00.0000000Z" });
    for (const jobs of [[aWindowsJob(1)], [], [again], []]) await say(aSpoolerLine({ jobs }));
    expect(watched.items("print")).toHaveLength(2);
    // Without the moment a number alone tells jobs apart only while they are listed.
    const timeless = aWindowsJob(5, { TimeSubmitted: null });
    for (const jobs of [[timeless], [], [timeless], []]) await say(aSpoolerLine({ jobs }));
    expect(watched.items("print")).toHaveLength(4);
  });
});

describe("the child", () => {
  test("that ends is a fault with its last words, and is started anew", async () => {
    const { fake, watched, say } = await aRig();
    await say(aSpoolerLine());
    fake.end(3, "the sky fell");
    await until(() => watched.fault() === "unreachable", "its end is told");
    expect(watched.answers.at(-1)).toMatchObject({
      detail: expect.stringMatching(/^Booth: .* ended \(code 3\) the sky fell$/) as string,
    });
    await fake.started(2);
    await say(aSpoolerLine());
    expect(watched.fault()).toBeNull();
  });
  test("that hangs is a fault, is ended and started anew", async () => {
    const { fake, watched, say } = await aRig({ settings: { silentMs: 1_000, everyMs: 200 } });
    await say(aSpoolerLine());
    await until(() => watched.fault() === "timeout", "its silence is told");
    await fake.started(2);
  });
  test("that writes only what is no answer is a fault that shows it", async () => {
    const { fake, watched } = await aRig({ settings: { silentMs: 500, everyMs: 200 } });
    fake.write('#< CLIXML\r\n{"version":2}\r\n{"version":1,"printers":[{"Name":5}]}\r\n');
    await until(() => watched.fault() === "unreadable", "the junk is told");
    expect(watched.answers.at(-1)).toMatchObject({
      detail: expect.stringContaining('{"version":1,"printers":[{"Name":5}]}') as string,
    });
  });
  test("whose junk comes between answers disturbs nobody", async () => {
    const { fake, watched, say } = await aRig();
    fake.write("WARNING: nothing to see\r\n\r\n");
    fake.write(Buffer.from([0x42, 0x94, 0x0a]));
    await say(aSpoolerLine());
    expect(watched.answers).toHaveLength(1);
    expect(watched.fault()).toBeNull();
  });
  test("whose line comes in halves, in the middle of a letter, is understood", async () => {
    const { fake, watched } = await aRig({ settings: { queue: "Größe" } });
    const bytes = Buffer.from(aSpoolerLine({ printers: [aWindowsPrinter({ Name: "Größe" })] }));
    const middle = bytes.indexOf(Buffer.from("ö")) + 1;
    fake.write(bytes.subarray(0, middle));
    fake.write(bytes.subarray(middle));
    await until(() => watched.items("printerState").length > 0, "the line was taken");
    expect(watched.items("printerState")).toMatchObject([{ queue: "Größe" }]);
  });
  test("that writes in an old code page is not understood wrongly", async () => {
    const { fake, watched } = await aRig({ settings: { queue: "Größe", silentMs: 500, everyMs: 200 } });
    // Code page 850: ö is 0x94, ß is 0xe1.
    const line = aSpoolerLine({ printers: [aWindowsPrinter({ Name: "Gr\u0094\u00e1e" })] });
    fake.write(Buffer.from(line, "latin1"));
    await until(() => watched.fault() === "unreadable", "the bytes are told");
    expect(watched.items("printerState")).toEqual([]);
  });
  test("is gone when the source is closed, though it takes no notice of a polite signal", async () => {
    const { fake, watched, say } = await aRig();
    await say(aSpoolerLine());
    expect(fake.isAlive()).toBe(true);
    await watched.close();
    await until(() => !fake.isAlive(), "the child is gone");
    expect(fake.starts()).toBe(1);
  });
  test("that does not exist is said to be missing, and asks whether this is Windows", async () => {
    const config = spoolerSourceConfig.parse({ kind: "spooler", queue: "Booth" });
    const surroundings = { clock: aHandClock().clock, stateFolder: scratchFolder() };
    const command = { file: "/no/such/powershell.exe", args: [], env: {} };
    const watched = await watchSource(spoolerSource(config, surroundings, command));
    await until(() => watched.fault() === "unsupported", "the missing program is told");
    await watched.close();
  });
});

test("a queue of another name is not found, and the sentence says where names are listed", async () => {
  const { watched, say } = await aRig({ settings: { queue: "Both" } });
  await say(aSpoolerLine());
  expect(watched.answers).toEqual([
    { fault: "notFound", detail: expect.stringMatching(/no printer "Both".*agent survey/) as string },
  ]);
});

test("printers that Windows does not show are a fault with its words", async () => {
  const { watched, say } = await aRig();
  await say(aSpoolerLine({ printers: null, faults: { printers: "The RPC server is unavailable." } }));
  expect(watched.answers).toEqual([
    { fault: "unreadable", detail: expect.stringContaining("The RPC server is unavailable.") as string },
  ]);
});
