import type { CheckName, OpeningCheck } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import type { ChecksInput } from "../../../dashboard/planning/checksInput.ts";
import { countToDo, openingChecks } from "../../../dashboard/planning/openingChecks.ts";
import { setUpFacts, type SetUpFacts } from "../../../dashboard/planning/setUpFacts.ts";
import { aBooking } from "../../support/aBooking.ts";
import {
  aBoothView,
  aMediaOutlook,
  aMediaView,
  anInsideView,
  aPrinterView,
  eveningAtMs,
  minuteMs,
} from "../../support/aBoothView.ts";
import { aHeatAhead, anOutlook } from "../../support/anOutlook.ts";
import { aPowerPlan } from "../../support/aPowerPlan.ts";
import { aStory, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const noFacts: SetUpFacts = {
  ...{ ticks: new Map(), testPrint: null, testHeard: null, peers: [], machine: null, readiness: null },
};

const allSeen: SetUpFacts = {
  ...noFacts,
  testPrint: { atMs: eveningAtMs, pitchesEach: 1 },
  testHeard: { by: "Ama", way: "push", atMs: eveningAtMs },
  peers: [{ part: "camera", isThere: true, name: "usb camera", atMs: eveningAtMs }],
  machine: { isUpdatePending: false, sleepsAfterMin: 0, atMs: eveningAtMs },
};

const input = (over: Partial<ChecksInput> = {}): ChecksInput => ({
  ...{ booking: aBooking({ printSizes: ["4x6"] }), view: aBoothView({}), facts: allSeen },
  ...{ diskFreeMb: 50_000, atMs: eveningAtMs },
  ...over,
});

const find = (check: CheckName, over: Partial<ChecksInput> = {}): OpeningCheck | undefined =>
  openingChecks(input(over)).find((each) => each.check === check);
const stateOf = (check: CheckName, over: Partial<ChecksInput> = {}) => find(check, over)?.state;
const inView = (over: Parameters<typeof aBoothView>[0]) => ({ view: aBoothView(over) });
const told = (over: Partial<SetUpFacts>) => ({ facts: { ...allSeen, ...over } });

describe("the opening checks", () => {
  it("of a booth that sees all it can leave to a person what only a person sees", () => {
    const checks = openingChecks(input({ view: aBoothView({ inside: anInsideView({ humidityPct: 40 }) }) }));
    const asked = checks.filter(({ state }) => state !== "seen").map(({ check, state }) => [check, state]);
    expect(asked).toEqual([
      ...[
        ["powerLocated", "toDo"],
        ["level", "toDo"],
        ["secured", "toDo"],
      ],
      ...[
        ["sparesThere", "question"],
        ["whiteBalance", "toDo"],
        ["rulesPosted", "toDo"],
      ],
    ]);
    expect(countToDo(checks)).toBe(6);
  });

  it("are settled by a tick, with who and when, but what a booth sees needs none", () => {
    const tick = { by: "Ben", atMs: eveningAtMs - minuteMs };
    const ticks = new Map(["level", "sparesThere", "camera", "clock"].map((check) => [check, tick]));
    const over = told({ ticks, peers: [] });
    for (const check of ["level", "sparesThere", "camera"] as const)
      expect(find(check, over)).toMatchObject({ state: "ticked", ...tick });
    expect(stateOf("clock", over)).toBe("seen");
  });

  it("see nothing of a booth that is not heard: neither well nor wrong", () => {
    for (const silent of [
      { isLinked: false },
      { heardAtMs: null },
      { heardAtMs: eveningAtMs - 2 * minuteMs },
    ]) {
      const checks = openingChecks(input(inView(silent)));
      expect(checks.filter(({ state }) => state === "seen").map(({ check }) => check)).toEqual([
        ...["testPrint", "testAlert"],
      ]);
      expect(checks.find(({ check }) => check === "agentHeard")?.state).toBe("toDo");
      expect(checks.find(({ check }) => check === "printerAnswers")).toMatchObject({
        ...{ state: "notPossible", fault: "unreachable" },
      });
    }
  });

  it("take the printer at its word", () => {
    expect(stateOf("printerAnswers")).toBe("seen");
    const open = inView({ printer: aPrinterView({ state: "stopped", reasons: ["cover-open-error"] }) });
    expect(find("printerAnswers", open)).toMatchObject({ state: "toDo", details: ["cover-open"] });
    const stalled = inView({ printer: aPrinterView({ stalledSinceAtMs: eveningAtMs - minuteMs }) });
    expect(stateOf("printerAnswers", stalled)).toBe("toDo");
    const fault = { source: "printer", fault: "timeout", detail: null, sinceAtMs: eveningAtMs } as const;
    expect(find("printerAnswers", inView({ faults: [fault] }))).toMatchObject({
      ...{ state: "notPossible", fault: "timeout" },
    });
    expect(find("printerAnswers", inView({ printer: null, faults: [] }))).toMatchObject({ fault: "missing" });
  });

  it("ask of the paper what is in doubt, and whether all aboard is enough", () => {
    expect(find("paper")).toMatchObject({ state: "seen", figures: { sheetsLeft: 246 } });
    expect(stateOf("paper", inView({ media: null }))).toBe("question");
    expect(stateOf("paper", inView({ media: aMediaView({ figure: "doubtful" }) }))).toBe("question");
    expect(stateOf("paper", inView({ media: aMediaView({ sheetsLeft: 0 }) }))).toBe("toDo");
    const rolls = (needed: number, spares: number | null) =>
      inView({
        outlook: anOutlook(
          eveningAtMs,
          aMediaOutlook({ lastsChance: 0.5, rolls: { needed, spares, lastsChance: 0.5 } }),
        ),
      });
    expect(stateOf("paperEnough")).toBe("seen");
    expect(stateOf("paperEnough", rolls(1, 1))).toBe("seen");
    expect(find("paperEnough", rolls(2, 1))).toMatchObject({
      state: "toDo",
      figures: { needed: 2, spares: 1 },
    });
    expect(stateOf("paperEnough", rolls(1, null))).toBe("toDo");
    expect(stateOf("paperEnough", inView({ outlook: anOutlook(eveningAtMs) }))).toBeUndefined();
  });

  it("want a test sheet that came out, of a size that was planned", () => {
    expect(stateOf("testPrint", told({ testPrint: null }))).toBe("toDo");
    expect(stateOf("printSize", told({ testPrint: null }))).toBeUndefined();
    const size = (pitchesEach: number | null, ...printSizes: ("4x6" | "2x6" | "6x8")[]) =>
      stateOf("printSize", {
        ...told({ testPrint: { atMs: eveningAtMs, pitchesEach } }),
        booking: aBooking({ printSizes }),
      });
    expect(size(1, "4x6")).toBe("seen");
    expect(size(2, "4x6")).toBe("toDo");
    expect(size(2, "4x6", "6x8")).toBe("seen");
    expect(size(0.5, "2x6")).toBe("seen");
    expect(size(null, "4x6")).toBe("question");
    expect(size(1)).toBeUndefined();
  });

  it("look at the booth's computer: camera, mains, clock, disk, update and sleep", () => {
    const camera = { part: "camera", isThere: false, name: "usb camera", atMs: eveningAtMs } as const;
    expect(find("camera", told({ peers: [camera] }))).toMatchObject({
      state: "toDo",
      details: ["usb camera"],
    });
    expect(find("camera", told({ peers: [] }))).toMatchObject({ state: "notPossible", fault: "missing" });

    const onBattery = inView({ power: { isOnMains: false, batteryPct: 80, sinceAtMs: eveningAtMs } });
    expect(stateOf("onMains", onBattery)).toBe("toDo");
    const planned = { booking: aBooking({ power: aPowerPlan({ source: "battery" }) }) };
    expect(stateOf("onMains", { ...onBattery, ...planned })).toBe("seen");
    expect(stateOf("onMains", inView({ power: null }))).toBe("notPossible");

    expect(stateOf("clock", inView({ clockOffMs: -61_000 }))).toBe("toDo");
    expect(stateOf("clock", inView({ clockOffMs: 59_000 }))).toBe("seen");
    expect(stateOf("clock", inView({ clockOffMs: null }))).toBe("notPossible");

    // Five hours at 60 sessions of 40 MB, and 2 GB for the system.
    expect(find("disk", { diskFreeMb: 13_999 })).toMatchObject({
      state: "toDo",
      figures: { needMb: 14_000 },
    });
    expect(stateOf("disk", { diskFreeMb: 14_000 })).toBe("seen");
    expect(stateOf("disk", { diskFreeMb: null })).toBe("notPossible");

    const machine = (isUpdatePending: boolean | null, sleepsAfterMin: number | null) =>
      told({ machine: { isUpdatePending, sleepsAfterMin, atMs: eveningAtMs } });
    expect(stateOf("update", machine(true, 0))).toBe("toDo");
    expect(stateOf("sleep", machine(false, 30))).toBe("toDo");
    expect(find("update", machine(null, 0))).toMatchObject({ fault: "unsupported" });
    expect(find("sleep", told({ machine: null }))).toMatchObject({ fault: "missing" });
  });

  it("look at the air: too warm now, likely too warm soon, and what may sweat", () => {
    const air = (over: Parameters<typeof anInsideView>[0]) => inView({ inside: anInsideView(over) });
    expect(stateOf("temperature", air({ insideC: 40 }))).toBe("toDo");
    expect(stateOf("temperature", air({ atMs: eveningAtMs - 11 * minuteMs }))).toBe("notPossible");
    expect(stateOf("temperature", inView({ inside: null }))).toBe("notPossible");
    const heat = [aHeatAhead(eveningAtMs, 0.4)];
    expect(stateOf("temperature", inView({ outlook: anOutlook(eveningAtMs, null, { heat }) }))).toBe(
      "question",
    );
    // Dew point of 25 C and 60 %: 16.7 C (Alduchov & Eskridge 1996; Sonntag's is within 0.05 C of it).
    const humid = { insideC: 25, humidityPct: 60 };
    expect(find("dewPoint", air(humid))?.figures["dewC"]).toBeCloseTo(16.7, 1);
    expect(stateOf("dewPoint", air({ ...humid, outsideC: 18 }))).toBe("seen");
    expect(find("dewPoint", air({ ...humid, outsideC: 5 }))).toMatchObject({ state: "question" });
    expect(find("dewPoint", air({ ...humid, outsideC: 5 }))?.figures["waitMin"]).toBeGreaterThan(20);
    expect(stateOf("dewPoint")).toBe("notPossible");
  });
});

describe("facts of the set-up", () => {
  const from = (minute: number) => ({
    ...{ fromAtMs: sixAtMs + minute * minuteMs, ticksFromAtMs: sixAtMs + (minute - 60) * minuteMs },
  });
  const facts = (lines: readonly StoryLine[], fromMinute = 0) => setUpFacts(aStory(lines), from(fromMinute));

  it("tick and untick in the order of time, for the van from before the set-up on", () => {
    const lines: StoryLine[] = [
      [3, "check", { check: "level", isDone: false, by: "Ben" }],
      [1, "check", { check: "level" }],
      [2, "check", { check: "secured" }],
      [-30, "check", { check: "load.rolls" }],
      [-90, "check", { check: "load.cord" }],
    ];
    expect([...facts(lines).ticks.keys()]).toEqual(["load.rolls", "secured"]);
  });

  it("count a sheet that came out since, and what one copy took", () => {
    expect(facts([[-5, "print", {}]]).testPrint).toBeNull();
    expect(facts([[5, "print", { copies: 2, pitches: 4 }]]).testPrint).toMatchObject({ pitchesEach: 2 });
    expect(facts([[5, "print", { copies: 1, pitches: 0 }]]).testPrint).toBeNull();
    expect(facts([[5, "counter", { pitchesEver: 10 }]]).testPrint).toBeNull();
    const counted = facts([
      [-50, "counter", { pitchesEver: 10 }],
      [5, "counter", { pitchesEver: 11 }],
    ]);
    expect(counted.testPrint).toEqual({ atMs: sixAtMs + 5 * minuteMs, pitchesEach: null });
  });

  it("know where the booth stands, but not by a word that was taken back", () => {
    const lines: StoryLine[] = [
      [-5, "readiness", { to: "packed" }],
      [5, "readiness", { to: "powered", by: "Ben" }],
    ];
    expect(facts(lines).readiness).toMatchObject({ to: "powered", atMs: sixAtMs + 5 * minuteMs });
    expect(facts([...lines, [6, "takenBack", { factSeq: 2, factBootId: "boot-1" }]]).readiness).toBeNull();
  });

  it("know what stands at the booth as it was last seen, and who was reached", () => {
    const seen = facts([
      [-200, "peer", { part: "camera", name: "usb camera" }],
      [-190, "machine", { isUpdatePending: true }],
      [1, "peer", { part: "camera", isThere: false, name: "usb camera" }],
      [2, "testHeard", { by: "Ben", way: "page" }],
    ]);
    expect(seen.peers).toMatchObject([{ part: "camera", isThere: false }]);
    expect(seen.machine).toMatchObject({ isUpdatePending: true });
    expect(seen.testHeard).toEqual({ by: "Ben", way: "page", atMs: sixAtMs + 2 * minuteMs });
  });
});
