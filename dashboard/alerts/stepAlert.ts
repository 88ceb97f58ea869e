import { compareSeverity, figuresOf, untouched, type Alert, type Judged, type Standing } from "./alert.ts";
import { isSeenTo } from "./alertState.ts";
import { rules, type Rule } from "./rules.ts";

/** What happened to an alert that people should hear of. */
export type AlertChange = {
  readonly change: "raised" | "worse" | "cleared" | "reopened";
  readonly alert: Alert;
};

/** An alert after a step; null when there is none. */
export type Step = { readonly alert: Alert | null; readonly change: AlertChange["change"] | null };

type Timing = Pick<Rule, "holdMs" | "clearHoldMs" | "floorMs">;

/** What is over and nobody took is shown for so long as that; then it is history. */
const returnedForMs = 30 * 60_000;

/**
 * One alert, one judgement later. It is raised after it has held for `holdMs`, cleared after it has been clear
 * for `clearHoldMs`; between the two thresholds it stays as it is. Its severity may rise while it is open,
 * after the same holding time, and never falls: who was called now is not told "soon" a minute later.
 *
 * Once cleared it is kept for `floorMs`, and until somebody has seen to it: what holds again meanwhile is the same
 * alert reopened, so that one that flaps is told of once.
 */
export function stepAlert(
  alert: Alert | null,
  judged: Judged,
  timing: Timing,
  at: { readonly boothId: string; readonly atMs: number; readonly newId: () => string },
): Step {
  if (alert?.phase === "over") return stepOver(alert, judged, timing, at.atMs);
  if (judged.stands === "unseen") return { alert: unheld(alert), change: null };
  if (judged.stands === "clear") return stepClear(alert, timing, at.atMs);
  if (alert === null) {
    if (judged.stands === "lingers") return { alert: null, change: null };
    return hold(begin(judged, at), judged, timing, at.atMs);
  }
  if (alert.phase === "holding") {
    if (judged.stands === "lingers") return { alert: null, change: null };
    return hold(alert, judged, timing, at.atMs);
  }
  return goOn(alert, judged, timing, at.atMs);
}

/**
 * All alerts of a booth, one judgement later. `alerts` come back as those that still live, to be stored whole;
 * one that is closed appears in `closed` only.
 */
export function stepAlerts(
  alerts: readonly Alert[],
  judgements: readonly Judged[],
  at: { readonly boothId: string; readonly atMs: number; readonly newId: () => string },
): {
  readonly alerts: readonly Alert[];
  readonly changes: readonly AlertChange[];
  readonly closed: readonly Alert[];
} {
  const after: Alert[] = [];
  const changes: AlertChange[] = [];
  for (const rule of rules) {
    const before = alerts.find(({ matter, phase }) => matter === rule.matter && phase !== "closed") ?? null;
    const judged = judgements.find(({ matter }) => matter === rule.matter);
    const step = judged === undefined ? { alert: before, change: null } : stepAlert(before, judged, rule, at);
    if (step.alert !== null) after.push(step.alert);
    if (step.alert !== null && step.change !== null) changes.push({ change: step.change, alert: step.alert });
  }
  const isClosed = ({ phase }: Alert) => phase === "closed";
  return { alerts: after.filter((alert) => !isClosed(alert)), changes, closed: after.filter(isClosed) };
}

function begin(judged: Standing, at: { boothId: string; atMs: number; newId: () => string }): Alert {
  return {
    ...figuresOf(judged),
    ...untouched,
    sinceAtMs: judged.since?.atMs ?? at.atMs,
    alertId: at.newId(),
    boothId: at.boothId,
    matter: judged.matter,
    severity: judged.severity,
    phase: "holding",
    heldFromAtMs: at.atMs,
    raisedAtMs: null,
    worseFromAtMs: null,
    clearFromAtMs: null,
    clearedAtMs: null,
    closedAtMs: null,
  };
}

/** What nobody can tell keeps what people were told of, and breaks every hold: two spikes hours apart are no hold. */
function unheld(alert: Alert | null): Alert | null {
  if (alert === null || alert.phase === "holding") return null;
  return alert.worseFromAtMs === null ? alert : { ...alert, worseFromAtMs: null };
}

/** Before it is raised it takes the mildest of what was judged: a spike at the end is no reason for "now". */
function hold(alert: Alert, judged: Standing, timing: Timing, atMs: number): Step {
  const isMilder = compareSeverity(judged.severity, alert.severity) < 0;
  const held = { ...taken(alert, judged), severity: isMilder ? judged.severity : alert.severity };
  const next = withWorse(held, judged, timing, atMs).alert;
  if (atMs - next.heldFromAtMs < timing.holdMs) return { alert: next, change: null };
  return { alert: { ...next, phase: "open", raisedAtMs: atMs }, change: "raised" };
}

function goOn(alert: Alert, judged: Standing, timing: Timing, atMs: number): Step {
  const open = { ...taken(alert, judged), phase: "open" as const, clearFromAtMs: null };
  const isLingering = judged.stands === "lingers";
  const { alert: next, isWorse } = isLingering
    ? { alert: { ...open, worseFromAtMs: null }, isWorse: false }
    : withWorse(open, judged, timing, atMs);
  return { alert: next, change: isWorse ? "worse" : null };
}

/** The alert with a higher severity, once that has been judged for the holding time. */
function withWorse(
  alert: Alert,
  judged: Standing,
  { holdMs }: Timing,
  atMs: number,
): { alert: Alert; isWorse: boolean } {
  if (compareSeverity(judged.severity, alert.severity) <= 0) {
    return { alert: { ...alert, worseFromAtMs: null }, isWorse: false };
  }
  const worseFromAtMs = alert.worseFromAtMs ?? atMs;
  if (atMs - worseFromAtMs < holdMs) return { alert: { ...alert, worseFromAtMs }, isWorse: false };
  return { alert: { ...alert, severity: judged.severity, worseFromAtMs: null }, isWorse: true };
}

function stepClear(alert: Alert | null, timing: Timing, atMs: number): Step {
  if (alert === null || alert.phase === "holding") return { alert: null, change: null };
  const clearFromAtMs = alert.clearFromAtMs ?? atMs;
  const clearing = { ...alert, phase: "clearing" as const, clearFromAtMs, worseFromAtMs: null };
  if (atMs - clearFromAtMs < timing.clearHoldMs) return { alert: clearing, change: null };
  const over = { ...clearing, phase: "over" as const, clearFromAtMs: null, clearedAtMs: atMs };
  return { alert: closedIfDue(over, timing, atMs), change: "cleared" };
}

/** What is over: holds again, stays to be seen, or is history. */
function stepOver(alert: Alert, judged: Judged, timing: Timing, atMs: number): Step {
  if (judged.stands !== "holds")
    return { alert: closedIfDue({ ...alert, worseFromAtMs: null }, timing, atMs), change: null };
  // Its hold begins anew; `worseFromAtMs` is free for it while the alert is over.
  const againFromAtMs = alert.worseFromAtMs ?? atMs;
  const again = { ...alert, worseFromAtMs: againFromAtMs };
  if (atMs - againFromAtMs < timing.holdMs) return { alert: again, change: null };
  const reopened = { ...taken(again, judged), ...unanswered, phase: "open" as const, clearedAtMs: null };
  return { alert: { ...reopened, severity: judged.severity, worseFromAtMs: null }, change: "reopened" };
}

/** What people said was of the time before. */
const unanswered = { taken: null, doneAtMs: null, laterUntilAtMs: null } as const;

function closedIfDue(alert: Alert, { floorMs }: Timing, atMs: number): Alert {
  const overMs = atMs - (alert.clearedAtMs ?? atMs);
  const isDue = overMs >= floorMs && (isSeenTo(alert) || overMs >= returnedForMs);
  return isDue ? { ...alert, phase: "closed", closedAtMs: atMs } : alert;
}

/** The alert with what was judged now. */
function taken(alert: Alert, judged: Standing): Alert {
  const { since } = judged;
  const isKept = since === null || (since.isAtLatest && alert.sinceAtMs < since.atMs);
  return { ...alert, ...figuresOf(judged), sinceAtMs: isKept ? alert.sinceAtMs : since.atMs };
}
