import { describe, expect, it } from "vitest";
import { printerNow } from "../../../dashboard/booth/printerNow.ts";
import { stateOf } from "../../support/aBooth.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const jammed: StoryLine = [10, "printerState", { state: "stopped", reasons: ["media-jam-error"] }];
const opened: StoryLine = [12, "printerState", { state: "stopped", reasons: ["cover-open"] }];
const well: StoryLine = [14, "printerState", { state: "idle", reasons: ["none"] }];

function printerAfter(minute: number, ...lines: StoryLine[]) {
  return printerNow(stateOf(lines), sixAtMs + minute * minuteMs);
}

function stopsIn(...lines: StoryLine[]) {
  return stateOf(lines).printing.stops.map(({ fromAtMs, toAtMs, reason }) => ({
    from: (fromAtMs - sixAtMs) / minuteMs,
    to: toAtMs === null ? null : (toAtMs - sixAtMs) / minuteMs,
    reason,
  }));
}

describe("a printer", () => {
  it("is null before it said anything", () => {
    expect(printerAfter(1, [0, "print"])).toBeNull();
  });

  it("has been stopped since its stop began, through other reasons", () => {
    expect(printerAfter(13, jammed, opened)).toMatchObject({
      ...{ isStopped: true, reasons: ["cover-open"], sinceAtMs: sixAtMs + 10 * minuteMs },
    });
    expect(printerAfter(15, jammed, opened, well)).toMatchObject({
      ...{ isStopped: false, reasons: [], sinceAtMs: sixAtMs + 14 * minuteMs },
    });
  });

  it("is the one that is stopped, of several", () => {
    const strips: StoryLine = [11, "printerState", { queue: "strips", state: "idle" }];
    expect(printerAfter(12, jammed, strips)?.queue).toBe("dye");
    expect(printerAfter(15, jammed, strips, well)?.queue).toBe("dye");
  });

  it("has the length of its own queue", () => {
    const lines: StoryLine[] = [
      well,
      [15, "queue", { queue: "strips", queuedJobs: 9 }],
      [16, "queue", { queuedJobs: 4 }],
    ];
    expect(printerAfter(17, ...lines)?.queuedJobs).toBe(4);
    expect(printerAfter(17, well, [15, "queue", { queuedJobs: null }])?.queuedJobs).toBeNull();
  });

  it("is no longer looked at when a newer start of the agent does not name it", () => {
    const renamed: StoryLine[] = [jammed, [20, "agentStarted"], [20.1, "printerState", { queue: "new" }]];
    expect(printerAfter(21, ...renamed)?.queue).toBe("dye");
    expect(printerAfter(23, ...renamed)?.queue).toBe("new");
    expect(printerAfter(23, jammed, [20, "agentStarted"])).toBeNull();
  });

  it("is said to be out of sight while its source has no value", () => {
    const lost: StoryLine = [15, "sourceState", { fault: "unreachable" }];
    expect(printerAfter(16, well, lost)?.isSourceLost).toBe(true);
    expect(printerAfter(16, well, lost, [16, "sourceState", { fault: null }])?.isSourceLost).toBe(false);
    expect(printerAfter(16, well, [15, "sourceState", { source: "other" }])?.isSourceLost).toBe(false);
  });
});

describe("stops", () => {
  it("have a beginning, an end and their worst reason", () => {
    expect(stopsIn(jammed, opened, well)).toEqual([{ from: 10, to: 14, reason: "media-jam" }]);
    expect(stopsIn([8, "printerState", { state: "stopped" }], jammed)).toEqual([
      { from: 8, to: null, reason: "media-jam" },
    ]);
    expect(stopsIn([8, "printerState", { state: "stopped" }], well)).toEqual([
      { from: 8, to: 14, reason: "stopped" },
    ]);
  });

  it("are counted by reasons alone while the state says processing", () => {
    const empty: StoryLine = [5, "printerState", { state: "processing", reasons: ["media-empty"] }];
    expect(stopsIn(empty, well)).toEqual([{ from: 5, to: 14, reason: "media-empty" }]);
  });

  it("are none for a warning", () => {
    expect(stopsIn([5, "printerState", { state: "processing", reasons: ["media-empty-warning"] }])).toEqual(
      [],
    );
  });

  it("are kept for a day and a half", () => {
    const next: StoryLine = [40 * 60, "printerState", { state: "stopped", reasons: ["paused"] }];
    expect(stopsIn(jammed, well, next)).toEqual([{ from: 40 * 60, to: null, reason: "paused" }]);
  });
});
