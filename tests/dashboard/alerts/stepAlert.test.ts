import type { Severity } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareSeverity, noFigures, type Alert, type Judged } from "../../../dashboard/alerts/alert.ts";
import { stepAlert } from "../../../dashboard/alerts/stepAlert.ts";

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

  it("holds anew after nobody could tell: two spikes hours apart are no hold", () => {
    const spikes: Moment[] = [
      [0, "holds"],
      [10, "unseen"],
      [9000, "holds"],
      [9010, "unseen"],
    ];
    expect(stepThrough(spikes)).toEqual({ told: [], alert: null });
    expect(stepThrough([...spikes, [9020, "holds"], [9080, "holds"]]).told).toEqual(["raised@9080 plan"]);
    const worse: Moment[] = [
      ...([
        [0, "holds"],
        [60, "holds"],
        [100, "holds", "actNow"],
        [110, "unseen"],
      ] as const),
      ...([
        [9000, "holds", "actNow"],
        [9059, "holds", "actNow"],
      ] as const),
    ];
    expect(stepThrough(worse).told).toEqual(["raised@60 plan"]);
    expect(stepThrough([...worse, [9060, "holds", "actNow"]]).told).toContain("worse@9060 actNow");
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
