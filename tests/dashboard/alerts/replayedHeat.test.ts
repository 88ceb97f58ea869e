import { describe, expect, it } from "vitest";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { judge } from "../../../dashboard/alerts/judge.ts";
import { stepAlerts } from "../../../dashboard/alerts/stepAlert.ts";
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
