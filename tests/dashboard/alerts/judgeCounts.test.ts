import { describe, expect, it } from "vitest";
import { aBookedTime } from "../../support/aBooking.ts";
import { aMediaView, aTally } from "../../support/aBoothView.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const idle: StoryLine = [-30, "printerState"];
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });

describe("countDoubtful", () => {
  const question = { ask: "fitted", atMs: at(112), sheets: 400 } as const;
  const shown = { media: aMediaView({ question, figure: "doubtful" }), printer: null, counts: aTally() };

  it("is for soon while guests are expected, with its question and since when", () => {
    expect(judgedOf("countDoubtful", aScene(120, [idle], { shown }))).toMatchObject({
      ...{ stands: "holds", severity: "plan", question, since: { atMs: at(112) }, sheetsLeft: 246 },
    });
  });

  it("is good to know otherwise, clear without a question, unseen without paper", () => {
    expect(judgedOf("countDoubtful", aScene(120, [idle], { shown, booking: away }))).toMatchObject({
      severity: "note",
    });
    const answered = { ...shown, media: aMediaView() };
    expect(judgedOf("countDoubtful", aScene(120, [idle], { shown: answered })).stands).toBe("clear");
    const unknown = { ...shown, media: null };
    expect(judgedOf("countDoubtful", aScene(120, [idle], { shown: unknown })).stands).toBe("unseen");
  });
});

describe("countsDiffer", () => {
  it("is good to know, with both figures, and clear when they agree", () => {
    const difference = {
      ...{ quantity: "pitches" as const, counted: 54, other: 60, otherBy: "counter", sinceAtMs: at(80) },
    };
    const shown = { media: null, printer: null, counts: aTally({ difference }) };
    expect(judgedOf("countsDiffer", aScene(120, [idle], { shown }))).toMatchObject({
      ...{ stands: "holds", severity: "note", difference, since: { atMs: at(80) } },
    });
    const agreed = { ...shown, counts: aTally() };
    expect(judgedOf("countsDiffer", aScene(120, [idle], { shown: agreed })).stands).toBe("clear");
  });
});
