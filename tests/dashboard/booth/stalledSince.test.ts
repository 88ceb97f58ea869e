import { describe, expect, it } from "vitest";
import { stalledSince } from "../../../dashboard/booth/stalledSince.ts";
import { stateOf } from "../../support/aBooth.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const printer = (minute: number, state: "idle" | "processing" | "stopped", reasons: string[]): StoryLine => [
  minute,
  "printerState",
  { state, reasons },
];
const waiting = (minute: number, queuedJobs = 2): StoryLine => [minute, "queue", { queuedJobs }];
/** Since which minute it is stalled, seen at another. */
const stalled = (minute: number, lines: readonly StoryLine[]) => {
  const sinceAtMs = stalledSince(stateOf(lines), at(minute));
  return sinceAtMs === null ? null : (sinceAtMs - sixAtMs) / minuteMs;
};

describe("jobs that wait while no sheet is finished", () => {
  it("show a stall after a minute, since they wait or since the last sheet", () => {
    expect(stalled(1, [printer(-9, "processing", []), waiting(0)])).toBeNull();
    expect(stalled(1.1, [printer(-9, "processing", []), waiting(0)])).toBe(0);
    expect(stalled(1.4, [printer(-9, "processing", []), waiting(0), [0.2, "print"], waiting(0.3)])).toBe(0.2);
  });

  it("show none while the printer itself says that it stopped, nor when nothing waits", () => {
    expect(stalled(3, [printer(-9, "stopped", ["media-jam-error"]), waiting(0)])).toBeNull();
    expect(stalled(3, [printer(-9, "processing", []), waiting(0, 0)])).toBeNull();
  });

  it("have waited for the printer only since it could print again", () => {
    const changed = [printer(0, "stopped", ["cover-open-warning"]), waiting(0.5), waiting(2)];
    const goesOn = [...changed, printer(2.5, "processing", []), waiting(2.5)];
    expect(stalled(2.6, goesOn)).toBeNull();
    expect(stalled(3.6, goesOn)).toBe(2.5);
  });
});
