import { matter, type Matter } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { judge } from "../../../dashboard/alerts/judge.ts";
import { rules } from "../../../dashboard/alerts/rules.ts";
import { stepAlerts } from "../../../dashboard/alerts/stepAlert.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const mattersOf = (holds: (rule: (typeof rules)[number]) => boolean): Matter[] =>
  rules.filter(holds).map((rule) => rule.matter);

/** Anything that new rules are judged by, at minutes from -60 to 60. */
const minute = fc.integer({ min: -60, max: 60 });
const anyLine: fc.Arbitrary<StoryLine> = fc.oneof(
  fc.tuple(
    minute,
    fc.constant("peer" as const),
    fc.record({ part: fc.constantFrom("camera", "tablet", "router", "uplink"), isThere: fc.boolean() }),
  ),
  fc.tuple(
    minute,
    fc.constant("machine" as const),
    fc.record({ isUpdatePending: fc.option(fc.boolean()), sleepsAfterMin: fc.option(fc.nat(60)) }),
  ),
  fc.tuple(
    minute,
    fc.constant("power" as const),
    fc.record({ isOnMains: fc.boolean(), batteryPct: fc.option(fc.nat(100)) }),
  ),
  fc.tuple(
    minute,
    fc.constant("host" as const),
    fc.record({ batteryPct: fc.option(fc.nat(100)), diskFreeMb: fc.option(fc.nat(9_000)) }),
  ),
  fc.tuple(
    minute,
    fc.constant("inside" as const),
    fc.record({ insideC: fc.integer({ min: -5, max: 45 }), humidityPct: fc.option(fc.nat(100)) }),
  ),
  fc.tuple(minute, fc.constant("print" as const), fc.record({ size: fc.constantFrom("4x6", "6x8", null) })),
  fc.tuple(
    minute,
    fc.constant("sourceState" as const),
    fc.record({ fault: fc.constantFrom("timeout", null) }),
  ),
  fc.tuple(minute, fc.constant("agentStarted" as const)),
  fc.tuple(minute, fc.constant("printerState" as const)),
);

const anyScene = fc
  .record({ lines: fc.array(anyLine, { maxLength: 14 }), opensAt: fc.constantFrom(-30, 90, 1_200) })
  .map(({ lines, opensAt }) => {
    const booking = aBookedTime({
      ...{ openAtMs: at(opensAt), closeAtMs: at(opensAt + 300), printSizes: ["4x6"] },
    });
    const sorted = lines.toSorted(([a], [b]) => a - b);
    return aScene(61, sorted, {
      booking,
      outlook: anOutlook(at(61)),
      reach: { hasOwner: true, hasAttendant: false },
    });
  });

describe("the table", () => {
  it("has a row for every matter, each once", () => {
    expect(mattersOf(() => true).toSorted()).toEqual([...matter.options].toSorted());
  });

  it("says which are only foreseen, and which need no word from the booth", () => {
    expect(mattersOf((rule) => rule.isForecast).toSorted()).toEqual([
      ...["boothIdle", "condensation", "mediaLow", "sparesShort", "sunComing", "tooHot"],
    ]);
    expect(mattersOf((rule) => !rule.underSiteDark).toSorted()).toEqual([
      ...["agentSilent", "attendantUnreached", "testNotReceived"],
    ]);
  });

  it("damps what comes and goes for ten minutes at least", () => {
    for (const rule of rules) expect(rule.floorMs).toBeGreaterThanOrEqual(10 * minuteMs);
  });

  it("keeps what can hurt people out of what is normal at any time", () => {
    for (const rule of rules.filter((each) => /^(tooHot|heatForGuests|condensation)$/.test(each.matter)))
      expect(rule.normalIn).toEqual([]);
  });
});

describe("whatever is known of a booth", () => {
  it("judging twice says the same, and stepping by it twice at one moment changes nothing more", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const judged = judge(scene);
        expect(judge(scene)).toEqual(judged);
        let ids = 0;
        const step = (alerts: readonly Alert[]) =>
          stepAlerts(alerts, judged, { boothId: "juniper", atMs: scene.atMs, newId: () => `${(ids += 1)}` });
        const once = step([]);
        expect(step(once.alerts)).toEqual({ alerts: once.alerts, changes: [], closed: [] });
      }),
      { numRuns: 150 },
    );
  });

  it("each matter is judged once, and what holds has the figures as a stored alert has them", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const judged = judge(scene);
        expect(judged.map((each) => each.matter)).toEqual(rules.map((each) => each.matter));
        expect(JSON.parse(JSON.stringify(judged))).toEqual(judged);
      }),
      { numRuns: 100 },
    );
  });

  it("of a booth that is not heard nothing that needs its word is taken back or raised", () => {
    fc.assert(
      fc.property(anyScene, (scene) => {
        const silent = judge({ ...scene, heardAtMs: scene.atMs - 10 * minuteMs });
        const needing = new Set(mattersOf((rule) => rule.underSiteDark));
        for (const judged of silent.filter((each) => needing.has(each.matter)))
          expect(judged.stands).toBe("unseen");
      }),
      { numRuns: 50 },
    );
  });

  it("of a booth of which nothing is known nothing is called well that needs a reading", () => {
    const scene = aScene(61, [], { outlook: anOutlook(at(61)) });
    const clear = judge(scene).filter((each) => each.stands === "clear");
    // All can be told, nobody looks at parts, guests after the close are not yet possible, and silence is heard to be none.
    expect(clear.map((each) => each.matter).toSorted()).toEqual([
      ...["agentSilent", "attendantUnreached", "boothIdle", "cameraGone", "countsDiffer", "overrun"],
      ...["routerGone", "tabletGone"],
      ...["testNotReceived", "uplinkLost", "wrongPrintSize"],
    ]);
  });
});
