import { describe, expect, it } from "vitest";
import { aBookedTime } from "../../support/aBooking.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";
import { playAlerts } from "../../support/playAlerts.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const started: StoryLine = [-60, "agentStarted"];
const there = (
  minute: number,
  part: "camera" | "tablet" | "router" | "uplink",
  isThere: boolean,
): StoryLine => [minute, "peer", { part, isThere, name: `the ${part}`, source: "peers" }];
const soon = aBookedTime({ openAtMs: at(90), closeAtMs: at(400) });
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });

describe("a camera that is gone", () => {
  it("is for now while the booth is open, half a minute after its source said so, and over when it is back", () => {
    const story = [started, there(-59, "camera", true), there(1, "camera", false), there(3, "camera", true)];
    expect(playAlerts("cameraGone", story, { fromMin: 0, toMin: 4 })).toEqual([
      "raised@1:30 actNow",
      "cleared@3:10 actNow",
    ]);
  });

  it("is not said for a battery changed in twenty seconds", () => {
    const story = [
      started,
      there(-59, "camera", true),
      there(1, "camera", false),
      there(1 + 1 / 3, "camera", true),
    ];
    expect(playAlerts("cameraGone", story, { fromMin: 0, toMin: 4 })).toEqual([]);
  });

  it("is for soon while they set up, and nothing to say of a booth that is packed away", () => {
    const gone = [started, there(-59, "camera", true), there(1, "camera", false)];
    expect(judgedOf("cameraGone", aScene(2, gone, { booking: soon }))).toMatchObject({
      ...{ stands: "holds", severity: "plan", partName: "the camera" },
      since: { atMs: at(1), isAtLatest: false },
    });
    expect(judgedOf("cameraGone", aScene(2, gone, { booking: away })).stands).toBe("clear");
    expect(judgedOf("cameraGone", aScene(2, gone, { booking: null })).stands).toBe("clear");
  });

  it("was gone before it was first looked at, when that is the first word of it", () => {
    const judged = judgedOf("cameraGone", aScene(2, [started, there(1, "camera", false)]));
    expect(judged).toMatchObject({ since: { atMs: at(1), isAtLatest: true } });
  });

  it("is unseen while its source has no value, so that an open alert stays", () => {
    const story = [started, there(-59, "camera", false)];
    const lost: StoryLine = [1, "sourceState", { source: "peers", fault: "timeout" }];
    expect(judgedOf("cameraGone", aScene(2, [...story, lost])).stands).toBe("unseen");
    expect(playAlerts("cameraGone", [...story, lost], { fromMin: 0, toMin: 6 })).toEqual([
      "raised@0:30 actNow",
    ]);
  });

  it("of an agent that started anew is unseen until it has said its parts, then no longer looked at", () => {
    const anew = [started, there(-59, "camera", false), [10, "agentStarted"] as const];
    expect(judgedOf("cameraGone", aScene(11, anew))).toMatchObject({ stands: "holds" });
    expect(judgedOf("cameraGone", aScene(12.5, anew)).stands).toBe("clear");
  });
});

describe("tablet, router and uplink", () => {
  it("are for soon, each after its own time", () => {
    const story = (part: "tablet" | "router" | "uplink") => [
      ...[started, there(-59, part, true), there(1, part, false), there(9, part, true)],
    ];
    const play = { fromMin: 0, toMin: 12 };
    expect(playAlerts("tabletGone", story("tablet"), play)).toEqual([
      "raised@3:00 plan",
      "cleared@9:30 plan",
    ]);
    expect(playAlerts("routerGone", story("router"), play)).toEqual([
      "raised@2:00 plan",
      "cleared@9:30 plan",
    ]);
    expect(playAlerts("uplinkLost", story("uplink"), play)).toEqual([
      "raised@3:00 plan",
      "cleared@10:00 plan",
    ]);
  });

  it("are not said behind a router that is gone, and not taken back by it", () => {
    const both = [started, ...(["router", "uplink", "tablet"] as const).map((part) => there(1, part, false))];
    const play = { fromMin: 0, toMin: 9 };
    expect(playAlerts("routerGone", both, play)).toEqual(["raised@2:00 plan"]);
    expect(playAlerts("uplinkLost", both, play)).toEqual([]);
    expect(playAlerts("tabletGone", both, play)).toEqual([]);
    const uplinkFirst = [started, there(-10, "uplink", false), there(5, "router", false)];
    expect(playAlerts("uplinkLost", uplinkFirst, play)).toEqual(["raised@2:00 plan"]);
  });

  it("are clear where nobody looks at them", () => {
    expect(judgedOf("uplinkLost", aScene(2, [started])).stands).toBe("clear");
  });
});

describe("a printer out of sight", () => {
  const seen: StoryLine = [-30, "printerState", { source: "printer" }];
  const lost = (minute: number, fault: "unreachable" | null): StoryLine => [
    minute,
    "sourceState",
    { source: "printer", fault },
  ];

  it("is said after half a minute, and over ten seconds after it is seen again", () => {
    const story = [seen, lost(1, "unreachable"), lost(5, null)];
    expect(playAlerts("printerUnseen", story, { fromMin: 0, toMin: 6 })).toEqual([
      "raised@1:30 actNow",
      "cleared@5:10 actNow",
    ]);
  });

  it("is not said of a print server that restarts", () => {
    const story = [seen, lost(1, "unreachable"), lost(1.2, null)];
    expect(playAlerts("printerUnseen", story, { fromMin: 0, toMin: 6 })).toEqual([]);
  });

  it("says why and which, and leaves a stop that was said as it is", () => {
    const scene = aScene(2, [
      [-1, "printerState", { source: "printer", state: "stopped" }],
      lost(1, "unreachable"),
    ]);
    expect(judgedOf("printerUnseen", scene)).toMatchObject({ fault: "unreachable", partName: "dye" });
    expect(judgedOf("printerStopped", scene).stands).toBe("unseen");
  });

  it("is unseen where no printer was ever told of, and clear of a booth packed away", () => {
    expect(judgedOf("printerUnseen", aScene(2, [])).stands).toBe("unseen");
    expect(
      judgedOf("printerUnseen", aScene(2, [seen, lost(1, "unreachable")], { booking: away })).stands,
    ).toBe("clear");
  });
});
