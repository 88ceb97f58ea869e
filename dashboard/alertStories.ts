import type { AlertStory } from "@boothward/shared-types";
import { alertViewOf } from "./alerts/alertViews.ts";
import type { Alert } from "./alerts/alert.ts";
import type { Store } from "./store/openStore.ts";
import { alertOf } from "./storedAlert.ts";

/** Alerts since an instant, the latest first, each with who said what and who was told. */
export async function alertStories(
  store: Pick<Store, "alerts" | "booths" | "notices">,
  boothIds: readonly string[] | null,
  fromAtMs: number,
  atMs: number,
): Promise<AlertStory[]> {
  const alerts = (await store.alerts.since(boothIds, fromAtMs)).map(alertOf);
  const ids = alerts.map(({ alertId }) => alertId);
  const steps = await store.alerts.stepsOf(ids);
  const told = await store.notices.ofAlerts(ids);
  const names = new Map((await store.booths.all()).map(({ boothId, name }) => [boothId, name]));
  return alerts.map((alert): AlertStory => {
    const { alertId, boothId, closedAtMs } = alert;
    return {
      alert: shownOf(alert, atMs),
      boothName: names.get(boothId) ?? boothId,
      closedAtMs,
      log: steps
        .filter((step) => step.alertId === alertId)
        .map(({ atMs: stepAtMs, step, state, severity, by, device }) => ({
          ...{ atMs: stepAtMs, step, state, severity, by, device },
        })),
      told: told.filter((line) => line.alertId === alertId),
    };
  });
}

/** One that is over and seen to is shown as it last stood. */
function shownOf(alert: Alert, atMs: number): AlertStory["alert"] {
  const view = alertViewOf(alert, atMs) ?? alertViewOf({ ...alert, phase: "open" }, atMs);
  if (view === null) throw new Error(`an alert that was raised cannot be shown: ${alert.alertId}`);
  return view;
}
