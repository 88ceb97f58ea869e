import { describe, expect, it } from "vitest";
import { mediaNow } from "../../../dashboard/booth/mediaNow.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth, stateOf } from "../../support/aBooth.ts";
import { minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const noPlan = aBookedTime({ sheetsLoaded: null });

/** Minutes after 18:00 at which rolls were changed, and what is left now. */
function changesIn(...lines: StoryLine[]) {
  const state = stateOf(lines);
  const media = mediaNow(state, aBooth(), noPlan);
  return {
    changes: state.media.changes.map(({ base }) => (base.atMs - sixAtMs) / minuteMs),
    ...{ left: media?.sheetsLeft ?? null, figure: media?.figure ?? null },
  };
}

const low: StoryLine[] = [
  [0, "media", { sheetsLeft: 60 }],
  ...printsFrom(0, 30, 30),
  [31, "media", { sheetsLeft: 30 }],
];

describe("a meter that jumps up", () => {
  it("is a roll change after a minute without prints", () => {
    expect(changesIn(...low, [35, "media", { sheetsLeft: 400 }])).toEqual({
      ...{ changes: [35], left: 400, figure: "metered" },
    });
  });

  it("is one to a partial roll too", () => {
    expect(changesIn(...low, [35, "media", { sheetsLeft: 140 }])).toMatchObject({ changes: [35], left: 140 });
  });

  it("is none while prints go on: then meter and count are in doubt", () => {
    const busy: StoryLine[] = [
      [0, "rollFitted", { sheets: 60 }],
      ...printsFrom(0, 30, 30),
      [29.5, "media", { sheetsLeft: 31 }],
      [30.1, "media", { sheetsLeft: 90 }],
    ];
    expect(changesIn(...busy)).toEqual({ changes: [0], left: 30, figure: "doubtful" });
  });

  it("is none by a sheet or two, which is a meter's wobble", () => {
    expect(changesIn(...low, [35, "media", { sheetsLeft: 32 }])).toMatchObject({ changes: [] });
  });

  it("is one change when both parts jump", () => {
    const parts: StoryLine[] = [
      [0, "media", { part: "Paper", sheetsLeft: 20 }],
      [0.01, "media", { part: "Dye ribbon", sheetsLeft: 18 }],
      [10, "media", { part: "Paper", sheetsLeft: 400 }],
      [10.01, "media", { part: "Dye ribbon", sheetsLeft: 400 }],
    ];
    expect(changesIn(...parts)).toEqual({ changes: [10], left: 400, figure: "metered" });
  });

  it("is one change in percent", () => {
    const parts: StoryLine[] = [
      [0, "media", { sheetsLeft: null, leftPct: 9 }],
      [10, "media", { sheetsLeft: null, leftPct: 100 }],
      ...printsFrom(11, 20, 9),
    ];
    expect(changesIn(...parts)).toMatchObject({ changes: [10], left: 391 });
  });

  it("is the change a person told before, when it moves only with the next print", () => {
    const told: StoryLine[] = [
      [34, "rollFitted", { sheets: 400 }],
      [60, "media", { sheetsLeft: 399 }],
      [60.1, "print"],
    ];
    expect(changesIn(...low, ...told)).toEqual({ changes: [34], left: 399, figure: "metered" });
  });

  it("is a change after a correction, which is no roll", () => {
    const told: StoryLine[] = [
      [32, "correction", { sheetsLeft: 25 }],
      [40, "media", { sheetsLeft: 398 }],
    ];
    expect(changesIn(...low, ...told)).toMatchObject({ changes: [40], left: 398 });
  });
});

describe("a person's word about a roll", () => {
  it("belongs to the jump the meter showed a moment ago", () => {
    const told: StoryLine[] = [
      [35, "media", { sheetsLeft: 400 }],
      [36, "print"],
      [37, "rollFitted", { sheets: 400 }],
    ];
    expect(changesIn(...low, ...told)).toMatchObject({ changes: [35], left: 399 });
  });

  it("typed again before anything was printed replaces the first", () => {
    const twice: StoryLine[] = [
      [0, "rollFitted", { sheets: 700 }],
      [1, "rollFitted", { sheets: 400 }],
    ];
    expect(changesIn(...twice)).toMatchObject({ changes: [0], left: 400 });
  });

  it("is another roll when the first was printed on", () => {
    const two: StoryLine[] = [[0, "rollFitted", { sheets: 5 }], ...printsFrom(0, 4, 4), [6, "rollFitted"]];
    expect(changesIn(...two)).toMatchObject({ changes: [0, 6], left: 400 });
  });
});

describe("prints that come again after the printer was empty", () => {
  const emptied: StoryLine[] = [
    [0, "rollFitted", { sheets: 30 }],
    ...printsFrom(0, 30, 30),
    [31, "printerState", { state: "stopped", reasons: ["media-empty-error"] }],
    [36, "printerState", { state: "idle", reasons: [] }],
  ];

  it("mean a new roll, taken for a whole kit and asked about", () => {
    expect(changesIn(...emptied, ...printsFrom(36, 38, 2))).toEqual({
      ...{ changes: [0, 37], left: 398, figure: "doubtful" },
    });
  });

  it("mean nothing new when a person told of the roll", () => {
    const told: StoryLine[] = [[35.5, "rollFitted", { sheets: 200 }]];
    const lines = [...emptied.slice(0, -1), ...told, ...emptied.slice(-1), ...printsFrom(36, 38, 2)];
    expect(changesIn(...lines)).toEqual({ changes: [0, 35.5], left: 198, figure: "counted" });
  });

  it("are settled by a person's word afterwards", () => {
    const told: StoryLine = [39, "rollFitted", { sheets: 400 }];
    expect(changesIn(...emptied, ...printsFrom(36, 38, 2), told)).toEqual({
      ...{ changes: [0, 37], left: 398, figure: "counted" },
    });
  });

  it("mean no roll while the printer still says that it is empty", () => {
    expect(changesIn(...emptied.slice(0, -1), [31.5, "print"])).toMatchObject({ changes: [0], left: 0 });
  });
});

it("keeps both sides of a roll change in the trail, for a step in the picture", () => {
  const { trail } = stateOf([...low, [35, "rollFitted", { sheets: 400 }], [35.5, "print"]]).media;
  const edges = trail.filter((point) => point.isEdge);
  expect(edges.map((point) => point.atMs)).toEqual([sixAtMs + 35 * minuteMs, sixAtMs + 35 * minuteMs]);
  expect(edges.map((point) => point.marks.base?.sheets ?? null)).toEqual([null, 400]);
});
