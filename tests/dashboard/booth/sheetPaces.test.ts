import { describe, expect, it } from "vitest";
import { stateOf } from "../../support/aBooth.ts";
import type { StoryLine } from "../../support/aStoredItem.ts";

/** Story lines a number of seconds after six. */
const queue = (second: number, queuedJobs: number): StoryLine => [second / 60, "queue", { queuedJobs }];
const print = (second: number, pitches = 1): StoryLine => [
  second / 60,
  "print",
  { printId: `p-${second}`, pitches },
];
const inside = (second: number, insideC: number): StoryLine => [second / 60, "inside", { insideC }];

/** How long sheets took, in tenths of a second, and how warm it was. */
const took = (lines: readonly StoryLine[]) =>
  stateOf(lines).readings.paces.flatMap(({ intervals }) =>
    intervals.map(({ intervalS, insideC }) => [Math.round(intervalS * 10) / 10, insideC]),
  );

describe("how long sheets take", () => {
  it("is seen where a job had waited when the one before it came out", () => {
    const busy = [inside(0, 31), queue(1, 2), print(20), queue(20, 1), print(34), queue(34, 0)];
    expect(took(busy)).toEqual([[14, 31]]);
    const ofTwo = [queue(1, 2), print(20), queue(21, 1), print(48, 2)];
    expect(took(ofTwo)).toEqual([[14, null]]);
  });

  it("is not seen where the guests came one by one, or nobody knows whether a job waited", () => {
    expect(took([print(20), queue(20, 0), queue(60, 1), print(75), queue(75, 0)])).toEqual([]);
    expect(took([print(20), print(34), print(48)])).toEqual([]);
  });

  it("is not seen over a stop, nor where a job took far too long", () => {
    const jammed: StoryLine[] = [
      ...[queue(1, 2), print(20), queue(20, 1)],
      [25 / 60, "printerState", { state: "stopped", reasons: ["media-jam-error"] }],
      [60 / 60, "printerState", { state: "processing", reasons: [] }],
      print(70),
    ];
    expect(took(jammed)).toEqual([]);
    expect(took([queue(1, 2), print(20), queue(20, 1), print(200)])).toEqual([]);
  });

  it("counts a job that is told again once", () => {
    const again: StoryLine[] = [queue(1, 3), print(20), queue(20, 2), print(34), queue(34, 1)];
    expect(took([...again, [34.5 / 60, "print", { printId: "p-34" }]])).toEqual([[14, null]]);
  });

  it("forgets the sheets of hours ago", () => {
    const lines = [queue(1, 2), print(20), queue(20, 1), print(34)];
    expect(took([...lines, inside(5 * 3600, 30)])).toEqual([]);
  });
});
