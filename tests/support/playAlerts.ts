import type { Matter } from "@boothward/shared-types";
import type { Alert } from "../../dashboard/alerts/alert.ts";
import { judge } from "../../dashboard/alerts/judge.ts";
import { stepAlerts } from "../../dashboard/alerts/stepAlert.ts";
import { anOutlook } from "./anOutlook.ts";
import { aScene, type SceneParts } from "./aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "./aStoredItem.ts";

export type Play = {
  /** Minutes after 18:00. */
  readonly fromMin: number;
  readonly toMin: number;
  readonly everyS?: number;
  /** What else is so at a minute; the outlook is empty unless it says one. */
  readonly over?: (minute: number) => SceneParts;
};

/**
 * Plays a story and steps the alerts as the dashboard does: what became of one matter's alert, as
 * "raised@1:30 plan", minutes and seconds after 18:00.
 */
export function playAlerts(matter: Matter, lines: readonly StoryLine[], play: Play): string[] {
  const { fromMin, toMin, everyS = 5, over = () => ({}) } = play;
  let alerts: readonly Alert[] = [];
  const told: string[] = [];
  for (let second = fromMin * 60; second <= toMin * 60; second += everyS) {
    const minute = second / 60;
    const atMs = sixAtMs + minute * minuteMs;
    const seen = lines.filter(([at]) => at <= minute);
    const scene = aScene(minute, seen, { outlook: anOutlook(atMs), ...over(minute) });
    const step = stepAlerts(alerts, judge(scene), {
      boothId: "juniper",
      atMs,
      newId: () => `alert-${second}`,
    });
    alerts = step.alerts;
    const own = step.changes.filter(({ alert }) => alert.matter === matter);
    told.push(...own.map(({ change, alert }) => `${change}@${clockOf(second)} ${alert.severity}`));
  }
  return told;
}

function clockOf(second: number): string {
  const sign = second < 0 ? "-" : "";
  const all = Math.abs(Math.round(second));
  return `${sign}${Math.floor(all / 60)}:${String(all % 60).padStart(2, "0")}`;
}
