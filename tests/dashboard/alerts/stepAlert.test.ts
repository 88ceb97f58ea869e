import { alertView as alertViewSchema, type Severity } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareSeverity, noFigures, type Alert, type Judged } from "../../../dashboard/alerts/alert.ts";
import { alertViews } from "../../../dashboard/alerts/alertViews.ts";
import { judge } from "../../../dashboard/alerts/judge.ts";
import { stepAlert, stepAlerts } from "../../../dashboard/alerts/stepAlert.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { stateAfter } from "../../support/aBooth.ts";
import { aTally } from "../../support/aBoothView.ts";
import { aScene } from "../../support/aScene.ts";
import { aStoredItem, hourMs, sixAtMs } from "../../support/aStoredItem.ts";

const secondMs = 1000;
const booking = aBookedTime({ openAtMs: sixAtMs - hourMs });

/**
 * Plays temperatures, each holding from its second on, and steps the alerts every second until a minute after
 * the last; a booth's limit is 40 °C.
 */
function replay(readings: readonly (readonly [second: number, insideC: number])[]): string[] {
  let alerts: readonly Alert[] = [];
  const told: string[] = [];
  for (let second = 0; second <= (readings.at(-1)?.[0] ?? 0) + 60; second += 1) {
    const seen = readings.filter(([at]) => at <= second);
    const items = seen.map(([at, insideC], seq) =>
      aStoredItem("inside", { atMs: sixAtMs + at * secondMs, insideC, seq: seq + 1 }),
    );
    const atMs = sixAtMs + second * secondMs;
    const scene = aScene(second / 60, [], {
      ...{ state: stateAfter(items), outlook: anOutlook(atMs), booking },
      shown: { media: null, printer: null, counts: aTally() },
    });
    const step = stepAlerts(alerts, judge(scene), {
      boothId: "juniper",
      atMs,
      newId: () => `alert-${second}`,
    });
    alerts = step.alerts;
    const hot = step.changes.filter(({ alert }) => alert.matter === "tooHot");
    told.push(...hot.map(({ change }) => `${change}@${second}`));
  }
  return told;
}

describe("too hot, replayed", () => {
  it("is raised after a minute and cleared half a minute after it is clear", () => {
    expect(
      replay([
        [0, 41],
        [60, 41],
        [90, 39],
      ]),
    ).toEqual(["raised@60", "cleared@120"]);
  });

  it("is not raised by a spike", () => {
    expect(
      replay([
        [0, 38],
        [20, 45],
        [50, 38],
      ]),
    ).toEqual([]);
  });

  it("is not cleared just under the limit", () => {
    expect(
      replay([
        [0, 41],
        [90, 39.5],
        [200, 41],
      ]),
    ).toEqual(["raised@60"]);
  });

  it("is not cleared by a short dip", () => {
    expect(
      replay([
        [0, 41],
        [90, 38],
        [110, 41],
        [130, 38],
        [150, 41],
      ]),
    ).toEqual(["raised@60"]);
  });

  it("begins its minute again after a break", () => {
    expect(
      replay([
        [0, 41],
        [50, 38],
        [55, 41],
        [140, 41],
      ]),
    ).toEqual(["raised@115"]);
  });

  it("comes back as itself soon after", () => {
    expect(
      replay([
        [0, 41],
        [100, 38],
        [200, 41],
        [300, 41],
      ]),
    ).toEqual(["raised@60", "cleared@130", "reopened@260"]);
  });
});

const timing = { holdMs: 60, clearHoldMs: 30, floorMs: 500 };

type Moment = readonly [at: number, stands: "holds" | "lingers" | "clear" | "unseen", severity?: Severity];

/** Steps one alert through judgements and says what was told, with the severity after it. */
function stepThrough(moments: readonly Moment[]): { told: string[]; alert: Alert | null } {
  let alert: Alert | null = null;
  const told: string[] = [];
  for (const [atMs, stands, severity = "plan"] of moments) {
    const step = stepAlert(alert, judgedAs(stands, severity, atMs), timing, {
      ...{ boothId: "juniper", atMs, newId: () => `alert-${atMs}` },
    });
    if (step.change !== null) told.push(`${step.change}@${atMs} ${step.alert?.severity}`);
    alert = step.alert?.phase === "closed" ? null : step.alert;
  }
  return { told, alert };
}

function judgedAs(stands: Judged["stands"], severity: Severity, atMs: number): Judged {
  if (stands === "clear" || stands === "unseen") return { matter: "tooHot", stands };
  return { ...noFigures, matter: "tooHot", stands, severity, since: { atMs: atMs - 5, isAtLatest: false } };
}

describe("one alert", () => {
  it("gets worse within itself, after the same holding time", () => {
    expect(
      stepThrough([
        [0, "holds"],
        [60, "holds"],
        [100, "holds", "actNow"],
        [159, "holds", "actNow"],
      ]).told,
    ).toEqual(["raised@60 plan"]);
    const worse = stepThrough([
      [0, "holds"],
      [60, "holds"],
      [100, "holds", "actNow"],
      [160, "holds", "actNow"],
    ]);
    expect(worse.told).toEqual(["raised@60 plan", "worse@160 actNow"]);
    expect(worse.alert?.alertId).toBe("alert-0");
  });

  it("never gets milder while it is open", () => {
    const moments: Moment[] = [
      [0, "holds", "actNow"],
      [60, "holds", "actNow"],
      [90, "holds", "plan"],
    ];
    expect(stepThrough(moments).alert?.severity).toBe("actNow");
  });

  it("is raised as the mildest it was judged: a spike at the end is no reason for 'now'", () => {
    expect(
      stepThrough([
        [0, "holds"],
        [59, "holds", "actNow"],
        [60, "holds", "actNow"],
      ]).told,
    ).toEqual(["raised@60 plan"]);
    expect(
      stepThrough([
        [0, "holds", "actNow"],
        [30, "holds"],
        [60, "holds", "actNow"],
      ]).told,
    ).toEqual(["raised@60 plan"]);
  });

  it("is not raised by what only lingers, nor cleared by it", () => {
    expect(
      stepThrough([
        [0, "lingers"],
        [100, "lingers"],
      ]).told,
    ).toEqual([]);
    expect(
      stepThrough([
        [0, "holds"],
        [60, "holds"],
        [90, "lingers"],
        [900, "lingers"],
      ]).told,
    ).toEqual(["raised@60 plan"]);
    expect(
      stepThrough([
        [0, "holds"],
        [30, "lingers"],
        [60, "holds"],
        [119, "holds"],
      ]).told,
    ).toEqual([]);
  });

  it("stays as it is while nobody can tell", () => {
    const { told, alert } = stepThrough([
      [0, "holds"],
      [60, "holds"],
      [70, "unseen"],
      [9000, "unseen"],
    ]);
    expect(told).toEqual(["raised@60 plan"]);
    expect(alert).toMatchObject({ phase: "open", sinceAtMs: 55 });
  });

  it("takes since when from the state, also when late facts move it", () => {
    const { alert } = stepThrough([
      [0, "holds"],
      [60, "holds"],
      [500, "holds"],
    ]);
    expect(alert).toMatchObject({ sinceAtMs: 495, heldFromAtMs: 0, raisedAtMs: 60 });
  });

  it("keeps the earlier since when the state remembers only the last part of it", () => {
    const hotSince = (sinceAtMs: number): Judged => ({
      ...{ ...noFigures, matter: "tooHot", stands: "holds", severity: "plan" },
      since: { atMs: sinceAtMs, isAtLatest: true },
    });
    const at = (atMs: number) => ({ boothId: "juniper", atMs, newId: () => "alert" });
    const first = stepAlert(null, hotSince(-100), timing, at(0)).alert;
    expect(stepAlert(first, hotSince(-40), timing, at(60)).alert?.sinceAtMs).toBe(-100);
    expect(stepAlert(first, hotSince(-200), timing, at(60)).alert?.sinceAtMs).toBe(-200);
  });

  it("begins when it was first judged, where it is only foreseen", () => {
    const foreseen: Judged = {
      ...noFigures,
      matter: "mediaLow",
      stands: "holds",
      severity: "plan",
      since: null,
    };
    const at = (atMs: number) => ({ boothId: "juniper", atMs, newId: () => "alert" });
    const first = stepAlert(null, foreseen, timing, at(7)).alert;
    expect(stepAlert(first, foreseen, timing, at(90))).toMatchObject({
      change: "raised",
      alert: { sinceAtMs: 7 },
    });
  });
});

describe("whatever is judged", () => {
  const anyMoments = fc
    .array(
      fc.tuple(
        fc.integer({ min: 1, max: 50 }),
        fc.constantFrom<Moment[1]>("holds", "lingers", "clear", "unseen"),
        fc.constantFrom<Severity>("actNow", "plan", "note"),
      ),
      { maxLength: 60 },
    )
    .map((steps) => {
      let at = 0;
      return steps.map(([gap, stands, severity]): Moment => [(at += gap), stands, severity]);
    });

  it("is raised before it is worse or cleared, cleared once, and never milder", () => {
    fc.assert(
      fc.property(anyMoments, (moments) => {
        let open: Severity | null = null;
        for (const line of stepThrough(moments).told) {
          const change = line.slice(0, line.indexOf("@"));
          const severity = line.slice(line.indexOf(" ") + 1) as Severity;
          expect(change === "raised" || change === "reopened").toBe(open === null);
          if (change === "worse") expect(compareSeverity(severity, open ?? "actNow")).toBeGreaterThan(0);
          open = change === "cleared" ? null : severity;
        }
      }),
    );
  });

  it("is raised only after it held for the whole holding time, with nothing clear in between", () => {
    fc.assert(
      fc.property(anyMoments, (moments) => {
        for (const line of stepThrough(moments).told.filter((each) => each.startsWith("raised"))) {
          const raisedAt = Number(line.slice(line.indexOf("@") + 1, line.indexOf(" ")));
          const during = moments.filter(([at]) => at <= raisedAt && at > raisedAt - timing.holdMs);
          expect(during.some(([, stands]) => stands === "clear" || stands === "lingers")).toBe(false);
        }
      }),
    );
  });

  it("is flat JSON that comes back as it was", () => {
    fc.assert(
      fc.property(anyMoments, (moments) => {
        const { alert } = stepThrough(moments);
        expect(JSON.parse(JSON.stringify(alert))).toStrictEqual(alert);
      }),
    );
  });
});

describe("what people see", () => {
  const base = stepThrough([
    [0, "holds"],
    [60, "holds"],
  ]).alert;
  if (base === null) throw new Error("no alert");
  const alerts: Alert[] = [
    { ...base, alertId: "holding", phase: "holding" },
    { ...base, alertId: "soon", sinceAtMs: 1 },
    { ...base, alertId: "now-later", severity: "actNow", sinceAtMs: 9, phase: "clearing" },
    { ...base, alertId: "now", severity: "actNow", sinceAtMs: 2 },
    { ...base, alertId: "silence", matter: "agentSilent", sinceAtMs: 3 },
    { ...base, alertId: "over", phase: "over", clearedAtMs: 90 },
  ];

  it("is what is open, the most pressing first", () => {
    expect(alertViews(alerts, true, 100).map(({ alertId }) => alertId)).toEqual([
      "now",
      "now-later",
      "soon",
      "silence",
    ]);
  });

  it("is only the silence of a booth that is not heard", () => {
    expect(alertViews(alerts, false, 100).map(({ alertId }) => alertId)).toEqual(["silence"]);
  });

  it("has the shape the page parses, and no more", () => {
    for (const view of alertViews(alerts, true, 100)) {
      expect(Object.keys(view).sort()).toEqual(Object.keys(alertViewSchema.shape).sort());
      expect(alertViewSchema.parse(view)).toEqual(view);
    }
  });
});
