import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { batteryLeft, drainPctPerMin } from "../../../dashboard/booth/batteryLeft.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { stateOf } from "../../support/aBooth.ts";
import { aMediaOutlook, aMediaView, aTally } from "../../support/aBoothView.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";
import { playAlerts } from "../../support/playAlerts.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const soon = aBookedTime({ openAtMs: at(90), closeAtMs: at(400) });
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });

/** Off the mains at a minute, then a figure each minute that falls evenly. */
function draining(fromMin: number, fromPct: number, pctPerMin: number, minutes: number): StoryLine[] {
  const off: StoryLine = [fromMin, "power", { isOnMains: false, batteryPct: fromPct }];
  const figures = Array.from({ length: minutes }, (_, index): StoryLine => {
    const batteryPct = Math.max(0, Math.round(fromPct - (index + 1) * pctPerMin));
    return [fromMin + index + 1, "host", { batteryPct }];
  });
  return [off, ...figures];
}

describe("how long a battery lasts", () => {
  it("is what is left by the median drain: 80 % at half a percent a minute is 160 minutes", () => {
    const left = batteryLeft(stateOf(draining(0, 90, 0.5, 20)));
    expect(left).toMatchObject({ batteryPct: 80, atMs: at(20) });
    expect(left?.minutesLeft).toBeCloseTo(160, -1);
  });

  it("is not known until it has fallen by two percents, and nothing on mains", () => {
    expect(batteryLeft(stateOf(draining(0, 90, 0.5, 2)))).toMatchObject({ minutesLeft: null });
    const back: StoryLine = [30, "power", { isOnMains: true, batteryPct: 70 }];
    expect(batteryLeft(stateOf([...draining(0, 90, 0.5, 20), back]))).toBeNull();
    expect(batteryLeft(stateOf([]))).toBeNull();
  });

  it("forgets how it drained before it was last on mains", () => {
    const again = draining(60, 70, 1, 10);
    const story = [
      ...draining(0, 90, 0.5, 20),
      [40, "power", { isOnMains: true, batteryPct: 90 }] as const,
      ...again,
    ];
    expect(batteryLeft(stateOf(story))?.minutesLeft).toBeCloseTo(60, -1);
  });

  it("is not swayed by a meter that leaps, as a third of all figures may be wrong (Theil-Sen)", () => {
    const points = Array.from({ length: 21 }, (_, minute) => ({
      atMs: at(minute),
      batteryPct: 90 - minute * 0.5 - (minute % 4 === 3 ? 20 : 0),
    }));
    expect(drainPctPerMin(points)).toBeCloseTo(0.5, 1);
  });

  it("finds any even drain again", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        fc.integer({ min: 15, max: 30 }),
        (rate, minutes) => {
          const points = Array.from({ length: minutes }, (_, minute) => ({
            atMs: at(minute),
            batteryPct: 100 - rate * minute,
          }));
          expect(drainPctPerMin(points)).toBeCloseTo(rate, 6);
        },
      ),
    );
  });
});

describe("on battery", () => {
  it("is for soon with the moment it is empty, for now in its last half hour, and over on mains", () => {
    const story = [...draining(1, 60, 1, 50), [52, "power", { isOnMains: true, batteryPct: 12 }] as const];
    const told = playAlerts("onBattery", story, { fromMin: 0, toMin: 54 });
    expect(told[0]).toBe("raised@1:20 plan");
    expect(told[1]).toMatch(/^worse@3[0-3]:\d\d actNow$/);
    expect(told.slice(2)).toEqual(["cleared@52:10 actNow"]);
  });

  it("says the minutes as unknown before they are known", () => {
    expect(judgedOf("onBattery", aScene(2, draining(0, 60, 1, 1)))).toMatchObject({
      ...{ stands: "holds", severity: "plan", batteryMin: null, byAtMs: null, batteryPct: 59 },
      since: { atMs: at(0), isAtLatest: false },
    });
    expect(judgedOf("onBattery", aScene(2, draining(0, 14, 1, 1)))).toMatchObject({ severity: "actNow" });
  });

  it("is not said for a plug that is moved, nor of a booth packed away; unseen where no battery is", () => {
    const moved: StoryLine[] = [
      [1, "power", { isOnMains: false, batteryPct: 99 }],
      [1.25, "power", { isOnMains: true, batteryPct: 99 }],
    ];
    expect(playAlerts("onBattery", moved, { fromMin: 0, toMin: 4 })).toEqual([]);
    expect(judgedOf("onBattery", aScene(2, draining(0, 60, 1, 1), { booking: away })).stands).toBe("clear");
    expect(judgedOf("onBattery", aScene(2, [])).stands).toBe("unseen");
  });
});

describe("the disk", () => {
  const free = (minute: number, diskFreeMb: number | null): StoryLine => [minute, "host", { diskFreeMb }];
  // 246 sheets now and 40 at the close at worst: 206 sheets of 25 MB beside 1500 MB.
  const shown = { media: aMediaView(), printer: null, counts: aTally() };
  const outlook = anOutlook(at(2), aMediaOutlook());

  it("is short when what is free does not hold the rest of the night", () => {
    expect(judgedOf("diskShort", aScene(2, [free(1, 6_000)], { shown, outlook }))).toMatchObject({
      ...{ stands: "holds", severity: "plan", diskFreeMb: 6_000, diskNeededMb: 1_500 + 206 * 25 },
    });
    expect(judgedOf("diskShort", aScene(2, [free(1, 7_500)], { shown, outlook })).stands).toBe("lingers");
    expect(judgedOf("diskShort", aScene(2, [free(1, 8_000)], { shown, outlook })).stands).toBe("clear");
  });

  it("is for now when the next picture may fail, and unseen without a figure or with an old one", () => {
    expect(judgedOf("diskShort", aScene(2, [free(1, 300)]))).toMatchObject({ severity: "actNow" });
    expect(judgedOf("diskShort", aScene(2, [free(1, 300)], { booking: away }))).toMatchObject({
      severity: "note",
    });
    expect(judgedOf("diskShort", aScene(2, [free(1, null)])).stands).toBe("unseen");
    expect(judgedOf("diskShort", aScene(12, [free(1, 300)])).stands).toBe("unseen");
  });

  it("is raised after two minutes and taken back a minute after room was made", () => {
    const story = [free(0, 1_000), free(1, 1_000), free(2, 1_000), free(5, 9_000), free(6, 9_000)];
    expect(playAlerts("diskShort", story, { fromMin: 0, toMin: 8 })).toEqual([
      "raised@2:00 plan",
      "cleared@6:00 plan",
    ]);
  });
});

describe("the clock", () => {
  const offBy = (clockOffMs: number | null) => ({
    shown: { media: null, printer: null, counts: aTally(), clockOffMs },
  });

  it("is off from two minutes on, until it is within one", () => {
    const steps = [-130_000, 119_000, 61_000, 59_000, -59_000, null];
    expect(steps.map((off) => judgedOf("clockOff", aScene(2, [], offBy(off))).stands)).toEqual([
      ...["holds", "lingers", "lingers", "clear", "clear", "unseen"],
    ]);
  });

  it("is for soon while they set up, good to know else, and told as unknown when it only claims the future", () => {
    expect(judgedOf("clockOff", aScene(2, [], { ...offBy(200_000), booking: soon }))).toMatchObject({
      ...{ severity: "plan", clockOffMs: 200_000 },
    });
    const doubtful = { ...offBy(0), clockDoubtfulAtMs: at(1) };
    expect(judgedOf("clockOff", aScene(2, [], doubtful))).toMatchObject({
      ...{ stands: "holds", severity: "note", clockOffMs: null },
    });
    expect(judgedOf("clockOff", aScene(12, [], doubtful)).stands).toBe("clear");
  });
});

describe("updates and sleep", () => {
  const set = (minute: number, isUpdatePending: boolean | null, sleepsAfterMin: number | null): StoryLine => [
    minute,
    "machine",
    { isUpdatePending, sleepsAfterMin, source: "machine" },
  ];

  it("are said before the opening, with it as the latest moment", () => {
    const scene = aScene(0, [set(-5, true, 15)], { booking: soon });
    expect(judgedOf("updatePending", scene)).toMatchObject({
      ...{ stands: "holds", severity: "plan", byAtMs: soon.openAtMs },
    });
    expect(judgedOf("sleepOn", scene)).toMatchObject({
      stands: "holds",
      sleepsAfterMin: 15,
      byAtMs: soon.openAtMs,
    });
  });

  it("call nobody to a restart while guests are there, and to a setting they do", () => {
    const scene = aScene(30, [set(-5, true, 15)]);
    expect(judgedOf("updatePending", scene).stands).toBe("lingers");
    expect(judgedOf("sleepOn", scene)).toMatchObject({ stands: "holds", byAtMs: null });
  });

  it("are unseen where the computer does not say, clear where it is well", () => {
    expect(judgedOf("updatePending", aScene(0, [set(-5, null, null)])).stands).toBe("unseen");
    expect(judgedOf("sleepOn", aScene(0, [set(-5, null, null)])).stands).toBe("unseen");
    expect(judgedOf("sleepOn", aScene(0, [])).stands).toBe("unseen");
    expect(judgedOf("updatePending", aScene(0, [set(-5, false, 0)])).stands).toBe("clear");
    expect(judgedOf("sleepOn", aScene(0, [set(-5, false, 0)])).stands).toBe("clear");
  });

  it("are over when the restart is done", () => {
    const story = [set(-5, true, 0), set(5, false, 0)];
    const play = { fromMin: 0, toMin: 7, over: () => ({ booking: soon }) };
    expect(playAlerts("updatePending", story, play)).toEqual(["raised@1:00 plan", "cleared@5:10 plan"]);
  });
});
