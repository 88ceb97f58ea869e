import { describe, expect, it } from "vitest";
import { anOutlook } from "../../support/anOutlook.ts";
import { aMediaOutlook, aMediaView, aTally, type MediaOutlook } from "../../support/aBoothView.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const idle: StoryLine = [-30, "printerState"];
const roll: StoryLine = [-20, "rollFitted", { sheets: 400 }];

describe("mediaLow", () => {
  const falling = (sheets: number): StoryLine[] => [
    idle,
    [-20, "rollFitted", { sheets }],
    ...printsFrom(0, 120, 120),
  ];

  it("is clear while the roll lasts", () => {
    expect(judgedOf("mediaLow", aScene(120, falling(500))).stands).toBe("clear");
  });

  it("is for soon when it does not last, with the latest moment and the spares left", () => {
    const scene = aScene(120, falling(200));
    const judged = judgedOf("mediaLow", scene);
    expect(judged).toMatchObject({
      stands: "holds",
      severity: "plan",
      sheetsLeft: 80,
      spareRolls: 1,
      since: null,
    });
    const { p10, p50 } = scene.outlook.media?.emptyAtMs ?? { p10: 0, p50: 0 };
    expect(judged).toMatchObject({ byAtMs: p10, emptyAtMs: p50 });
    expect(p10).toBeGreaterThan(scene.atMs);
  });

  it("is for now when it ends within twenty minutes, and when it has ended", () => {
    expect(judgedOf("mediaLow", aScene(120, falling(132)))).toMatchObject({
      severity: "actNow",
      sheetsLeft: 12,
    });
    expect(judgedOf("mediaLow", aScene(120, falling(120)))).toMatchObject({
      ...{ stands: "holds", severity: "actNow", sheetsLeft: 0, byAtMs: null, since: { atMs: at(120) } },
    });
  });

  it("does not say again what the printer's own stop says", () => {
    const empty: StoryLine = [119, "printerState", { state: "stopped", reasons: ["media-empty-error"] }];
    expect(judgedOf("mediaLow", aScene(120, [...falling(200), empty])).stands).toBe("lingers");
  });

  it("names the spares as the page shows them", () => {
    const shown = { media: aMediaView({ spareRolls: 0, sheetsLeft: 12 }), printer: null, counts: aTally() };
    expect(judgedOf("mediaLow", aScene(120, falling(132), { shown }))).toMatchObject({ spareRolls: 0 });
  });

  it("is clear after the close, and unseen when nothing is known of the roll", () => {
    expect(judgedOf("mediaLow", aScene(301, falling(120))).stands).toBe("clear");
    expect(judgedOf("mediaLow", aScene(60, [idle, ...printsFrom(0, 50, 50)])).stands).toBe("unseen");
  });
});

describe("mediaLow with advice", () => {
  const emptyAtMs = { p10: at(200), p50: at(230), p90: null };
  const low = aMediaOutlook({ lastsChance: 0.2, emptyAtMs });
  const advised = (minute: number) => ({
    ...{ lull: { fromAtMs: at(minute), toAtMs: at(minute + 20) }, emptyBeforeChance: 0.02 },
    advised: { atMs: at(minute), groupsDelayed: 0.4, sheetsSetAside: 46 },
    atEmpty: { atMs: at(230), groupsDelayed: 3, sheetsSetAside: 0 },
  });
  const judgedWith = (change: MediaOutlook["change"]) =>
    judgedOf("mediaLow", aScene(120, [idle, roll], { outlook: anOutlook(at(120), { ...low, change }) }));

  it("names the end of the lull that is advised when it comes before the roll may be empty", () => {
    expect(judgedWith(advised(150))).toMatchObject({ byAtMs: at(170), emptyAtMs: at(230) });
    expect(judgedWith({ ...advised(150), lull: null })).toMatchObject({ byAtMs: at(150) });
  });

  it("names the moment before the roll may be empty otherwise", () => {
    expect(judgedWith(advised(210))).toMatchObject({ byAtMs: at(200) });
    expect(judgedWith(null)).toMatchObject({ byAtMs: at(200) });
  });

  it.each([
    [0.34, "holds"],
    [0.36, "lingers"],
    [0.51, "clear"],
  ])("with a chance of %f to last it %s", (lastsChance, stands) => {
    const outlook = anOutlook(at(120), aMediaOutlook({ lastsChance }));
    expect(judgedOf("mediaLow", aScene(120, [idle, roll], { outlook })).stands).toBe(stands);
  });
});

describe("sparesShort", () => {
  /** 400 on the roll, from 120 on the fan falls from 400 by 300 an hour at most; kits hold 400. */
  const fan = [
    { atMs: at(120), p10: 400, p50: 400, p90: 400 },
    { atMs: at(300), p10: -500, p50: -380, p90: -200 },
  ];
  const judgedWith = (rolls: MediaOutlook["rolls"], over: Partial<MediaOutlook> = {}) => {
    const outlook = anOutlook(at(120), aMediaOutlook({ fan, rolls, ...over }));
    return judgedOf("sparesShort", aScene(120, [idle, roll], { outlook }));
  };

  it("is for soon when roll and spares together do not last, with the rolls needed and the latest moment", () => {
    // 397.5 sheets beside the 400 (2.5 go to waste as it is fitted): by p10 797.5 of 900 are used up after
    // 159.5 of 180 minutes; by p50 780 not before the close.
    expect(judgedWith({ needed: 3, spares: 1, lastsChance: 0.3 })).toMatchObject({
      ...{ stands: "holds", severity: "plan", spareRolls: 1, rollsNeeded: 3 },
      ...{ byAtMs: at(279.5), emptyAtMs: null },
    });
  });

  it("is clear when they last, and where the roll's own alert asks for another already", () => {
    expect(judgedWith({ needed: 1, spares: 1, lastsChance: 0.9 }).stands).toBe("clear");
    expect(judgedWith({ needed: 2, spares: 0, lastsChance: 0.1 }).stands).toBe("clear");
    expect(judgedWith({ needed: 2, spares: 1, lastsChance: 0.45 }).stands).toBe("lingers");
  });

  it("is unseen when nobody knows the spares", () => {
    expect(judgedWith({ needed: 2, spares: null, lastsChance: null }).stands).toBe("unseen");
  });

  it("counts what is on rolls that came off", () => {
    const rolls = { needed: 3, spares: 1, lastsChance: 0.3 };
    const outlook = anOutlook(at(120), aMediaOutlook({ fan, rolls }));
    const shown = { media: aMediaView({ partialRolls: [65, 42.5] }), printer: null, counts: aTally() };
    const judged = judgedOf("sparesShort", aScene(120, [idle, roll], { outlook, shown }));
    // 102.5 more, waste taken off: 900 sheets, exactly at the close.
    expect(judged).toMatchObject({ byAtMs: at(300) });
  });
});
