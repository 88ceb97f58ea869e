import { describe, expect, it } from "vitest";
import { alertViews } from "../../../dashboard/alerts/alertViews.ts";
import { healthOf } from "../../../dashboard/alerts/healthOf.ts";
import { judge } from "../../../dashboard/alerts/judge.ts";
import { hearingOf, type Scene } from "../../../dashboard/alerts/scene.ts";
import { stepAlerts } from "../../../dashboard/alerts/stepAlert.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { idle, jam, roll } from "../../support/aJam.ts";
import { aScene } from "../../support/aScene.ts";
import { hourMs, minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const away = aBookedTime({ openAtMs: at(20 * 60), closeAtMs: at(25 * 60) });

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
