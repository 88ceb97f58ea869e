import { describe, expect, it } from "vitest";
import { aHeatAhead, anOutlook } from "../../support/anOutlook.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aScene, type SceneParts } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const idle: StoryLine = [-30, "printerState"];
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });

describe("tooHot", () => {
  const air = (fromC: number, toC: number): StoryLine[] =>
    Array.from({ length: 31 }, (_, minute) => [
      minute,
      "inside",
      { insideC: fromC + ((toC - fromC) * minute) / 30 },
    ]);

  it("is for now at the limit", () => {
    expect(judgedOf("tooHot", aScene(30, air(36, 40)))).toMatchObject({
      ...{ stands: "holds", severity: "actNow", insideC: 40, limitC: 40, since: { atMs: at(30) } },
    });
    expect(judgedOf("tooHot", aScene(30, air(36, 40), { booking: away }))).toMatchObject({
      severity: "plan",
    });
  });

  it("is for soon within two degrees while it rises, with when it gets there", () => {
    const judged = judgedOf("tooHot", aScene(30, air(36, 39)));
    // 3 degrees in 30 minutes, one to go: ten minutes.
    expect(judged).toMatchObject({ stands: "holds", severity: "plan", since: null });
    const byAtMs = ("byAtMs" in judged ? judged.byAtMs : null) ?? 0;
    expect(Math.abs(byAtMs - at(40))).toBeLessThan(3 * minuteMs);
  });

  it("goes by the last quarter of an hour while there is too little for a forecast", () => {
    const heat = [{ ...aHeatAhead(at(30), 0.9), basis: "notEnoughData" as const }];
    const outlook = anOutlook(at(30), null, { heat });
    const judged = judgedOf("tooHot", aScene(30, air(36, 39), { outlook }));
    expect(judged).toMatchObject({ stands: "holds", crossChance60: null });
    expect("byAtMs" in judged ? judged.byAtMs : 0).toBeCloseTo(at(40), -3);
  });

  it.each([
    [0.3, "holds"],
    [0.1, "lingers"],
    [0.04, "clear"],
  ])("with a chance of %f to pass the limit within the hour it %s", (crossChance60, stands) => {
    const outlook = anOutlook(at(30), null, { heat: [aHeatAhead(at(30), crossChance60)] });
    expect(judgedOf("tooHot", aScene(30, air(33, 35), { outlook })).stands).toBe(stands);
  });

  it("names when the upper course passes the limit where the middle one does not", () => {
    const outlook = anOutlook(at(30), null, { heat: [aHeatAhead(at(30), 0.3)] });
    expect(judgedOf("tooHot", aScene(30, air(33, 35), { outlook }))).toMatchObject({ byAtMs: at(70) });
  });

  it("is no matter near the limit when it does not rise, and clear a degree below", () => {
    expect(judgedOf("tooHot", aScene(30, air(39.5, 39.5))).stands).toBe("lingers");
    expect(judgedOf("tooHot", aScene(30, air(39, 39))).stands).toBe("clear");
    expect(judgedOf("tooHot", aScene(30, air(30, 35), { booking: away })).stands).toBe("clear");
  });

  it("is unseen when the last reading is old", () => {
    expect(judgedOf("tooHot", aScene(41, air(41, 41))).stands).toBe("unseen");
  });
});

describe("sunComing", () => {
  const sun = [{ fromAtMs: at(100), toAtMs: at(160) }];
  const judgedAt = (minute: number, over: SceneParts = {}) =>
    judgedOf("sunComing", aScene(minute, [idle], { outlook: anOutlook(at(minute), null, { sun }), ...over }));

  it("holds for the half hour before the sun reaches the printer, with from when and until when", () => {
    expect(judgedAt(69).stands).toBe("clear");
    expect(judgedAt(70)).toMatchObject({ stands: "holds", byAtMs: at(100), untilAtMs: at(160) });
    expect(judgedAt(100).stands).toBe("clear");
  });

  it("is no matter while no guests are expected, after the close, or for a glimpse of sun", () => {
    expect(judgedAt(75, { booking: away }).stands).toBe("clear");
    const late = aBookedTime({ closeAtMs: at(95) });
    expect(judgedAt(75, { booking: late }).stands).toBe("clear");
    const glimpse = anOutlook(at(75), null, { sun: [{ fromAtMs: at(100), toAtMs: at(103) }] });
    expect(judgedAt(75, { outlook: glimpse }).stands).toBe("clear");
  });

  it("is unseen where nobody knows how the booth stands", () => {
    expect(judgedAt(75, { outlook: anOutlook(at(75)) }).stands).toBe("unseen");
  });
});
