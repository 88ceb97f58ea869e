import { describe, expect, it } from "vitest";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { alertViews } from "../../../dashboard/alerts/alertViews.ts";
import { judge } from "../../../dashboard/alerts/judge.ts";
import { hearingOf, type Scene } from "../../../dashboard/alerts/scene.ts";
import { stepAlerts } from "../../../dashboard/alerts/stepAlert.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { idle, jam, roll } from "../../support/aJam.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });

describe("agentSilent", () => {
  const heard = (minute: number): Partial<Scene> => ({ heardAtMs: at(minute) });

  it("holds after three minutes without a frame, since the last one", () => {
    expect(judgedOf("agentSilent", aScene(60.9, [idle], heard(60))).stands).toBe("clear");
    expect(judgedOf("agentSilent", aScene(61, [idle], heard(60))).stands).toBe("lingers");
    expect(judgedOf("agentSilent", aScene(62.9, [idle], heard(60))).stands).toBe("lingers");
    expect(judgedOf("agentSilent", aScene(63, [idle], heard(60)))).toMatchObject({
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
