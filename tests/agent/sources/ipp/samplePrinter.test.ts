import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from "vitest";
import { ippSource } from "../../../../agent/sources/ipp/ippSource.ts";
import { ippSourceConfig } from "../../../../agent/sources/ipp/ippSourceConfig.ts";
import type { SamplePrinter } from "../../../support/ippeveprinter.ts";
import { canRunSamplePrinter, samplePrinter } from "../../../support/ippeveprinter.ts";
import { needsTool } from "../../../support/needsTool.ts";
import { until } from "../../../support/until.ts";
import type { WatchedSource } from "../../../support/watchSource.ts";
import { realClock, tempFolder, watchSource } from "../../../support/watchSource.ts";

/** The sample printer of CUPS is a second IPP peer by other hands: no queue, no events, a clock from 0. */
needsTool(
  "ippeveprinter",
  "apt-get install cups-ipp-utils dbus avahi-daemon, and run as root or with avahi running",
  canRunSamplePrinter,
)("the IPP Everywhere sample printer", () => {
  let printer: SamplePrinter;
  let state: Awaited<ReturnType<typeof tempFolder>>;
  let watched: WatchedSource;

  beforeAll(async () => {
    printer = await samplePrinter();
  });
  afterAll(() => printer.close());
  beforeEach(async () => {
    state = await tempFolder();
    await watchPrinter();
  });
  afterEach(async () => {
    await watched.close();
    await state.remove();
  });

  async function watchPrinter(): Promise<void> {
    const config = ippSourceConfig.parse({ kind: "ipp", uri: printer.uri, withoutEventsEveryMs: 200 });
    watched = await watchSource(ippSource(config, { clock: realClock, stateFolder: state.path }));
    await until(() => watched.items("printerState").length > 0, "the printer is read");
  }
  const prints = () => watched.items("print");

  test("is read without events: state, supplies, jobs", async () => {
    expect(watched.items("printerState")).toMatchObject([{ queue: "Booth Sim", state: "idle", reasons: [] }]);
    // The made-up supplies it begins with; the waste tank is no supply.
    expect(watched.items("media")).toEqual([
      {
        class: "fact",
        kind: "media",
        queue: "Booth Sim",
        part: "Black Toner",
        sheetsLeft: null,
        leftPct: 75,
        ageMs: null,
      },
    ]);
    await printer.print(3);
    await until(() => prints().length === 1, "the print is told");
    expect(prints()).toMatchObject([{ copies: 3, pitches: 3 }]);
  });

  test("shows the reasons its command gives", async () => {
    await printer.say("STATE: +media-low-warning");
    await printer.print();
    const reasons = () => watched.items("printerState").at(-1)?.reasons ?? [];
    await until(() => reasons().some((reason) => reason.startsWith("media-low")), "it is low");
    await printer.say("STATE: -media-low-warning");
    await printer.print();
    await until(() => reasons().length === 0, "it is well again");
  });

  test("jobs after it was switched off and on are new jobs, though it numbers them from 1", async () => {
    await printer.print();
    await until(() => prints().length === 1, "the first print is told");
    await printer.stop();
    await until(() => watched.fault() === "unreachable", "the printer is missed");
    await printer.start();
    // A printer takes longer to come up than the agent takes to look: it is seen before it prints again.
    await until(() => watched.fault() === null, "the printer is back");
    await printer.print();
    await until(() => prints().length === 2, "the print after the restart is told");
    await printer.print();
    await until(() => prints().length === 3, "the next is told");
    expect(new Set(prints().map((print) => print.printId)).size).toBe(3);
  });

  test("jobs printed while the agent was down are told once", async () => {
    await watched.close();
    await printer.print();
    await watchPrinter();
    await until(() => prints().length === 1, "the print is told");
    await watched.close();
    await watchPrinter();
    await printer.print();
    await until(() => prints().length > 0, "the next print is told");
    expect(prints()).toHaveLength(1);
  });
});
