import type { IdleSpell } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { aBookedTime } from "../../support/aBooking.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";
import { playAlerts } from "../../support/playAlerts.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const said = (
  minute: number,
  to: "packed" | "onSite" | "checked" | "open" | "onBreak" | "closing",
): StoryLine => [minute, "readiness", { to }];

describe("a booth with nobody at it", () => {
  const spell = (minute: number, over: Partial<IdleSpell> = {}) => {
    const idle = {
      sinceAtMs: at(60),
      sessionsExpected: 12,
      noneChance: 0.0005,
      basis: "learned" as const,
      ...over,
    };
    return { outlook: anOutlook(at(minute), null, { idle }) };
  };

  it("is said when hardly any evening like it would have had such a spell", () => {
    expect(judgedOf("boothIdle", aScene(95, [], spell(95)))).toMatchObject({
      ...{ stands: "holds", severity: "plan", sessionsExpected: 12 },
      since: { atMs: at(60), isAtLatest: false },
    });
  });

  it("is not said of a short spell, of few that were expected, or of one that happens", () => {
    expect(judgedOf("boothIdle", aScene(85, [], spell(85))).stands).toBe("lingers");
    expect(judgedOf("boothIdle", aScene(95, [], spell(95, { sessionsExpected: 5 }))).stands).toBe("lingers");
    expect(judgedOf("boothIdle", aScene(95, [], spell(95, { noneChance: 0.01 }))).stands).toBe("lingers");
    expect(judgedOf("boothIdle", aScene(95, [], spell(95, { noneChance: 0.05 }))).stands).toBe("clear");
  });

  it("is unseen where nothing made an expectation, or a source that may have counted is lost", () => {
    expect(judgedOf("boothIdle", aScene(95, [], spell(95, { basis: "blind" }))).stands).toBe("unseen");
    expect(judgedOf("boothIdle", aScene(95, [[90, "sourceState"]], spell(95))).stands).toBe("unseen");
  });

  it("is clear on a break and after the close, and not said of a printer that has stopped", () => {
    expect(judgedOf("boothIdle", aScene(95, [said(80, "onBreak")], spell(95))).stands).toBe("clear");
    expect(judgedOf("boothIdle", aScene(305, [], spell(305))).stands).toBe("clear");
    const jam: StoryLine = [70, "printerState", { state: "stopped", reasons: ["media-jam-error"] }];
    expect(judgedOf("boothIdle", aScene(95, [jam], spell(95))).stands).toBe("lingers");
  });

  it("is raised after a minute and over with the next guests", () => {
    const over = (minute: number) => (minute < 97 ? spell(minute) : {});
    expect(playAlerts("boothIdle", [], { fromMin: 88, toMin: 99, over })).toEqual([
      ...["raised@91:00 plan", "cleared@97:00 plan"],
    ]);
  });
});

describe("the size of prints", () => {
  const print = (minute: number, size: string | null): StoryLine => [minute, "print", { size }];
  const booked = (...printSizes: ("4x6" | "2x6" | "6x8")[]) => ({ booking: aBookedTime({ printSizes }) });
  const standsFor = (sizes: readonly (string | null)[], over: ReturnType<typeof booked>) =>
    judgedOf(
      "wrongPrintSize",
      aScene(
        sizes.length + 1,
        sizes.map((size, index) => print(index, size)),
        over,
      ),
    ).stands;

  it("is wrong when two in a row are not as booked, and right again with the next that is", () => {
    expect(standsFor(["4x6", "6x8"], booked("4x6"))).toBe("lingers");
    expect(standsFor(["4x6", "6x8", "6x8"], booked("4x6"))).toBe("holds");
    expect(standsFor(["6x8", "6x8", "4x6"], booked("4x6"))).toBe("clear");
    expect(standsFor(["2x6", "2x6"], booked("4x6"))).toBe("holds");
    expect(standsFor(["5x7", "5x7"], booked("4x6", "6x8"))).toBe("holds");
  });

  it("cannot be told of strips, which are cut from a 4x6 in the printer", () => {
    expect(standsFor(["4x6", "4x6"], booked("2x6"))).toBe("clear");
  });

  it("is unseen where no source knows it, and nothing to say where none was booked", () => {
    expect(standsFor([null, null], booked("4x6"))).toBe("unseen");
    expect(standsFor(["6x8", "6x8"], booked())).toBe("clear");
  });

  it("of prints of the booking before says nothing", () => {
    const before = [print(-130, "6x8"), print(-125, "6x8")];
    expect(judgedOf("wrongPrintSize", aScene(1, before, booked("4x6"))).stands).toBe("unseen");
  });

  it("is for now with guests there, from the first wrong one on, and says both sizes", () => {
    const story = [print(1, "4x6"), print(2, "6x8"), print(3, "6x8"), print(9, "4x6")];
    const play = { fromMin: 0, toMin: 10, over: () => booked("4x6") };
    expect(playAlerts("wrongPrintSize", story, play)).toEqual(["raised@3:05 actNow", "cleared@9:05 actNow"]);
    const scene = aScene(4, story.slice(0, 3), booked("4x6"));
    expect(judgedOf("wrongPrintSize", scene)).toMatchObject({
      ...{ printSize: "6x8", printSizes: ["4x6"], since: { atMs: at(2), isAtLatest: false } },
    });
  });
});

// The booking closes at 23:00, five hours after 18:00.
const close = 300;

describe("guests after the close", () => {
  const session = (minute: number): StoryLine => [minute, "session"];

  it("are said once the last ones have had ten minutes, and over half an hour after the last", () => {
    const story = [session(close - 5), session(close + 4), session(close + 12), session(close + 20)];
    const told = playAlerts("overrun", story, { fromMin: close, toMin: close + 55, everyS: 30 });
    expect(told).toEqual(["raised@312:00 plan", "cleared@350:30 plan"]);
    expect(judgedOf("overrun", aScene(close + 21, story))).toMatchObject({
      ...{ sessionsCounted: 2, since: { atMs: at(close), isAtLatest: false } },
    });
  });

  it("are the last guests when they finish within ten minutes, and nothing once it is extended", () => {
    expect(judgedOf("overrun", aScene(close + 15, [session(close + 4)])).stands).toBe("clear");
    const extended = { booking: aBookedTime({ closeAtMs: at(close + 60) }) };
    expect(judgedOf("overrun", aScene(close + 15, [session(close + 12)], extended)).stands).toBe("clear");
  });

  it("are clear once somebody says that the booth closes", () => {
    const story = [session(close + 12), said(close + 13, "closing")];
    expect(judgedOf("overrun", aScene(close + 15, story)).stands).toBe("clear");
  });

  it("are seen by prints alone: two, as one may be a test", () => {
    const print = (minute: number): StoryLine => [minute, "print"];
    expect(judgedOf("overrun", aScene(close + 15, [print(close + 12)])).stands).toBe("clear");
    const judged = judgedOf("overrun", aScene(close + 15, [print(close + 12), print(close + 13)]));
    expect(judged).toMatchObject({ stands: "holds", sessionsCounted: null });
  });
});

describe("an opening that has passed", () => {
  it("is said after two minutes when the booth is said to be somewhere before open, and over when it opens", () => {
    const story = [said(-60, "onSite"), said(-10, "checked"), said(7, "open")];
    expect(playAlerts("notOpen", story, { fromMin: -3, toMin: 9 })).toEqual([
      ...["raised@2:00 actNow", "cleared@7:00 actNow"],
    ]);
    expect(judgedOf("notOpen", aScene(4, story.slice(0, 2)))).toMatchObject({
      since: { atMs: at(0), isAtLatest: false },
    });
  });

  it("is said before doors, as soon only, when it is not checked by the time that was promised", () => {
    const promised = { booking: aBookedTime({ promisedAtMs: at(-15) }) };
    const story = [said(-60, "onSite"), said(3, "open")];
    expect(playAlerts("notOpen", story, { fromMin: -20, toMin: 5, over: () => promised })).toEqual([
      ...["raised@-13:00 plan", "worse@2:00 actNow", "cleared@3:00 actNow"],
    ]);
    for (const word of ["checked", "open"] as const)
      expect(judgedOf("notOpen", aScene(-5, [said(-20, word)], promised)).stands).toBe("clear");
    expect(judgedOf("notOpen", aScene(-5, [], promised)).stands).toBe("unseen");
    expect(judgedOf("notOpen", aScene(-5, story)).stands).toBe("clear");
  });

  it("is unseen where nobody says how far the booth is, and open when guests are served", () => {
    expect(judgedOf("notOpen", aScene(4, [])).stands).toBe("unseen");
    const served: StoryLine[] = [
      [2, "session"],
      [3, "session"],
    ];
    expect(judgedOf("notOpen", aScene(4, served)).stands).toBe("clear");
    expect(judgedOf("notOpen", aScene(4, [said(-10, "checked"), ...served])).stands).toBe("clear");
    expect(judgedOf("notOpen", aScene(4, [said(-10, "checked"), ...served.slice(0, 1)])).stands).toBe(
      "holds",
    );
  });

  it("is not told by a word of the evening before", () => {
    expect(judgedOf("notOpen", aScene(4, [said(-20 * 60, "closing")])).stands).toBe("unseen");
  });
});
