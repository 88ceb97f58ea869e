import { describe, expect, it } from "vitest";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { alertViews } from "../../../dashboard/alerts/alertViews.ts";
import { healthOf } from "../../../dashboard/alerts/healthOf.ts";
import { judge } from "../../../dashboard/alerts/judge.ts";
import { hearingOf, type Scene } from "../../../dashboard/alerts/scene.ts";
import { stepAlerts } from "../../../dashboard/alerts/stepAlert.ts";
import { aHeatAhead, anOutlook } from "../../support/anOutlook.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import {
  aMediaOutlook,
  aMediaView,
  aPrinterView,
  aTally,
  type MediaOutlook,
} from "../../support/aBoothView.ts";
import { aScene, type SceneParts } from "../../support/aScene.ts";
import { hourMs, minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";
import { rfc8011Reasons } from "../../support/rfc8011Reasons.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;

const idle: StoryLine = [-30, "printerState"];
const roll: StoryLine = [-20, "rollFitted", { sheets: 400 }];
const jam: StoryLine = [
  60,
  "printerState",
  { state: "stopped", reasons: ["media-low-warning", "media-jam-error"] },
];
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });
const soon = aBookedTime({ openAtMs: at(180), closeAtMs: at(400) });

describe("printerStopped", () => {
  it("is for now while the booth is open, with its reason, its beginning and what waits", () => {
    const scene = aScene(62, [idle, roll, jam, [61, "queue", { queuedJobs: 3 }]]);
    expect(judgedOf("printerStopped", scene)).toMatchObject({
      ...{ stands: "holds", severity: "actNow", reasons: ["media-jam"], queuedJobs: 3 },
      ...{ since: { atMs: at(60), isAtLatest: false }, sheetsLeft: 400, spareRolls: 1 },
    });
  });

  it("is for soon while they set up, and good to know otherwise", () => {
    expect(judgedOf("printerStopped", aScene(62, [jam], { booking: soon }))).toMatchObject({
      severity: "plan",
    });
    expect(judgedOf("printerStopped", aScene(62, [jam], { booking: away }))).toMatchObject({
      severity: "note",
    });
    expect(judgedOf("printerStopped", aScene(62, [jam], { booking: null }))).toMatchObject({
      severity: "note",
    });
  });

  it("leaves an open cover the time of a roll change", () => {
    const open: StoryLine = [60, "printerState", { state: "stopped", reasons: ["cover-open"] }];
    expect(judgedOf("printerStopped", aScene(62.9, [open])).stands).toBe("lingers");
    expect(judgedOf("printerStopped", aScene(63, [open])).stands).toBe("holds");
  });

  it("is clear for a warning, and unseen without a printer or behind a source without a value", () => {
    const warned: StoryLine = [60, "printerState", { state: "processing", reasons: ["media-low-warning"] }];
    expect(judgedOf("printerStopped", aScene(62, [warned])).stands).toBe("clear");
    expect(judgedOf("printerStopped", aScene(62, [roll])).stands).toBe("unseen");
    expect(judgedOf("printerStopped", aScene(62, [jam, [61, "sourceState"]])).stands).toBe("unseen");
  });

  it.each(rfc8011Reasons)(
    "judges %s as an error to stop the printer (RFC 8011 section 5.4.12)",
    (keyword) => {
      const lines: StoryLine[] = [
        [50, "printerState", { state: "processing", reasons: [`${keyword}-error`] }],
      ];
      expect(judgedOf("printerStopped", aScene(62, lines))).toMatchObject({
        stands: "holds",
        reasons: [keyword],
      });
    },
  );
});

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

describe("a printer that finishes nothing", () => {
  const stalled = {
    ...{ media: aMediaView(), counts: aTally() },
    printer: aPrinterView({ state: "processing", queuedJobs: 3, stalledSinceAtMs: at(110) }),
  };

  it("is stopped as well, since its last sheet, for a reason of our own", () => {
    const waiting: StoryLine = [100, "queue", { queuedJobs: 3 }];
    expect(judgedOf("printerStopped", aScene(120, [idle, waiting], { shown: stalled }))).toMatchObject({
      ...{ stands: "holds", severity: "actNow", reasons: ["no-sheet-finished"], queuedJobs: 3 },
      since: { atMs: at(110), isAtLatest: false },
    });
  });

  it("is said by the printer's own reason where it has one", () => {
    const judged = judgedOf("printerStopped", aScene(120, [idle, jam], { shown: stalled }));
    expect(judged).toMatchObject({ reasons: ["media-jam"], since: { atMs: at(60) } });
  });
});

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
    [0.25, "holds"],
    [0.15, "lingers"],
    [0.05, "clear"],
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

describe("agentSilent", () => {
  const heard = (minute: number): Partial<Scene> => ({ heardAtMs: at(minute) });

  it("holds after a minute without a frame, since the last one", () => {
    expect(judgedOf("agentSilent", aScene(60.9, [idle], heard(60))).stands).toBe("clear");
    expect(judgedOf("agentSilent", aScene(61, [idle], heard(60)))).toMatchObject({
      ...{ stands: "holds", severity: "plan", since: { atMs: at(60) } },
    });
    expect(judgedOf("agentSilent", aScene(65, [idle], heard(60)))).toMatchObject({ severity: "actNow" });
  });

  it("is no matter far from a booking, nor of a booth never heard", () => {
    expect(judgedOf("agentSilent", aScene(90, [idle], { ...heard(60), booking: away })).stands).toBe("clear");
    expect(judgedOf("agentSilent", aScene(90, [idle], { ...heard(60), booking: null })).stands).toBe("clear");
    expect(judgedOf("agentSilent", aScene(90, [idle], { heardAtMs: null })).stands).toBe("clear");
  });

  it("waits until the dashboard itself has listened for a minute", () => {
    const restarted = { ...heard(60), listeningFromAtMs: at(89.5) };
    expect(judgedOf("agentSilent", aScene(90, [idle], restarted)).stands).toBe("unseen");
    expect(judgedOf("agentSilent", aScene(90.5, [idle], restarted)).stands).toBe("holds");
  });

  it("hides the booth's other alerts and clears none of them", () => {
    let alerts: readonly Alert[] = [];
    let shown: string[] = [];
    const told: string[] = [];
    const go = (minute: number, lines: StoryLine[], over: Partial<Scene> = {}) => {
      const scene = aScene(minute, lines, over);
      const step = stepAlerts(alerts, judge(scene), {
        boothId: "juniper",
        atMs: scene.atMs,
        newId: () => `${minute}`,
      });
      alerts = step.alerts;
      told.push(...step.changes.map(({ change, alert }) => `${change} ${alert.matter}@${minute}`));
      shown = alertViews(alerts, hearingOf(scene) === "heard", scene.atMs).map(({ matter }) => matter);
    };
    go(60, [idle, roll, jam]);
    go(61, [idle, roll, jam]);
    expect(shown).toEqual(["printerStopped"]);
    go(70, [idle, roll, jam], heard(61));
    expect(shown).toEqual(["agentSilent"]);
    go(71, [idle, roll, jam]);
    expect(shown).toEqual(["printerStopped"]);
    go(72, [idle, roll, jam, [71.5, "printerState"]]);
    go(73, [idle, roll, jam, [71.5, "printerState"]]);
    expect(told).toEqual([
      ...["raised printerStopped@61", "raised agentSilent@70", "cleared agentSilent@71"],
      "cleared printerStopped@73",
    ]);
  });
});

describe("health", () => {
  const well: StoryLine[] = [idle, roll, ...printsFrom(0, 60, 30)];
  const healthAt = (minute: number, lines: StoryLine[], over: Partial<Scene> = {}) => {
    const scene = aScene(minute, lines, over);
    // Judged long enough ago for every alert that holds to be open.
    const at2 = { boothId: "juniper", newId: () => "id" };
    const before = stepAlerts([], judge(scene), { ...at2, atMs: scene.atMs - hourMs }).alerts;
    const { alerts } = stepAlerts(before, judge(scene), { ...at2, atMs: scene.atMs });
    return healthOf({ ...scene, alerts: alertViews(alerts, hearingOf(scene) === "heard", scene.atMs) });
  };

  it("is fine when the printer prints and the roll lasts", () => {
    expect(healthAt(60, well)).toBe("fine");
  });

  it("is stopped when the printer is, whatever else", () => {
    expect(healthAt(62, [...well, jam])).toBe("stopped");
    expect(healthAt(62, [...well, jam], { booking: null })).toBe("stopped");
  });

  it("needs a hand when something is for now", () => {
    const hot: StoryLine[] = [[60, "inside", { insideC: 44 }]];
    expect(healthAt(61, [...well, ...hot])).toBe("needsAHand");
    expect(healthAt(62, [...well, [61, "power", { isOnMains: false, batteryPct: null }]])).toBe("needsAHand");
    expect(healthAt(62, [...well, [61, "sourceState", { fault: "unreachable" }]])).toBe("needsAHand");
  });

  it("is to watch when something is for soon, warned of, lost or in doubt", () => {
    const watched: StoryLine[][] = [
      [idle, [-20, "rollFitted", { sheets: 150 }], ...printsFrom(0, 60, 60)],
      [...well, [61, "printerState", { reasons: ["media-low-warning"] }]],
      [...well, [61, "sourceState", { source: "folder", fault: "missing" }]],
      [...well, [61, "media", { sheetsLeft: 300 }]],
      [...well, [61, "power", { isOnMains: false, batteryPct: 80 }]],
      [...well, [61, "printerState", { state: "stopped", reasons: ["cover-open"] }]],
    ];
    expect(watched.map((lines) => healthAt(62, lines))).toEqual(watched.map(() => "watch"));
  });

  it("is silent during a booking, unknown far from one", () => {
    expect(healthAt(65, well, { heardAtMs: at(61) })).toBe("silent");
    expect(healthAt(65, well, { heardAtMs: at(61), booking: away })).toBe("unknown");
  });

  it("is unknown, never fine, when something of it cannot be seen", () => {
    expect(healthAt(62, well, { heardAtMs: null })).toBe("unknown");
    expect(healthAt(62, well, { booking: null })).toBe("unknown");
    expect(healthAt(62, well, { heardAtMs: at(40), listeningFromAtMs: at(61.5) })).toBe("unknown");
    expect(healthAt(62, [roll, ...printsFrom(0, 60, 30)])).toBe("unknown");
    expect(healthAt(62, [idle, ...printsFrom(0, 60, 30)])).toBe("unknown");
    expect(healthAt(62, [...well, [61, "printerState", { state: null }]])).toBe("unknown");
    const lost: StoryLine[] = [...well, [61, "sourceState", { fault: "unreachable" }]];
    expect(healthAt(62, lost, { booking: null })).toBe("unknown");
  });
});
