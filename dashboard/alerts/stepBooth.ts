import type { Matter } from "@boothward/shared-types";
import type { Alert } from "./alert.ts";
import { isSeenTo } from "./alertState.ts";
import { judge } from "./judge.ts";
import type { OwnTrouble } from "./ownTrouble.ts";
import { quieten, quietWindow, type QuietStep } from "./quieten.ts";
import { noticesDue, withTold, type NoticeDue, type Routing } from "./routing.ts";
import { ruleOf } from "./rules.ts";
import type { Scene } from "./scene.ts";
import { stepAlerts, type AlertChange } from "./stepAlert.ts";

/** What the business chose, and what is known of the dashboard itself. */
export type AlertOrder = {
  readonly routing: Routing;
  readonly rulesOff: ReadonlySet<Matter>;
  readonly own: OwnTrouble;
};

/** One line of history; `by` is null for what nobody did. */
export type AlertStep = {
  readonly alert: Alert;
  readonly step: AlertChange["change"] | QuietStep | "taken" | "later" | "done" | "closed";
  readonly by: string | null;
};

export type AlertNotice = NoticeDue & { readonly alert: Alert };

/** A booth's alerts after a moment: those that live on, those that are closed, what to write down and to tell. */
export type AlertsStepped = {
  readonly living: readonly Alert[];
  readonly closed: readonly Alert[];
  readonly steps: readonly AlertStep[];
  readonly notices: readonly AlertNotice[];
};

/** Judges a booth at one moment and steps its alerts: raised, cleared, silenced, told. */
export function stepBooth(
  before: readonly Alert[],
  scene: Scene,
  order: AlertOrder,
  newId: () => string,
): AlertsStepped {
  const { atMs } = scene;
  const moment = { atMs, isQuietTime: quietWindow(scene) !== null };
  const stepped = stepAlerts(before, judge(scene), { boothId: scene.settings.boothId, atMs, newId });
  const steps: AlertStep[] = [];
  const notices: AlertNotice[] = [];
  const living = stepped.alerts.map((alert) => {
    const rule = ruleOf(alert.matter);
    const quiet = quieten(alert, rule, scene, order.rulesOff, order.own);
    const due = noticesDue(quiet.alert, rule, order.routing, scene.reach, moment);
    const told = withTold(quiet.alert, due, atMs);
    const change = stepped.changes.find((each) => each.alert.alertId === alert.alertId)?.change;
    if (change !== undefined) steps.push({ alert: told, step: change, by: null });
    if (alert.phase !== "holding")
      for (const step of quiet.steps) steps.push({ alert: told, step, by: null });
    notices.push(...due.map((each) => ({ ...each, alert: told })));
    return told;
  });
  for (const alert of stepped.closed) {
    const isCleared = stepped.changes.some((each) => each.alert.alertId === alert.alertId);
    if (isCleared) steps.push({ alert, step: "cleared", by: null });
    else if (!isSeenTo(alert)) steps.push({ alert, step: "closed", by: null });
  }
  return { living, closed: stepped.closed, steps, notices };
}
