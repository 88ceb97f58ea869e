import { compareSeverity, figuresOf, untouched, type Alert, type Judged, type Standing } from "./alert.ts";
import { rules, type Rule } from "./rules.ts";

/** What happened to an alert that people should hear of. */
export type AlertChange = { readonly change: "raised" | "worse" | "cleared"; readonly alert: Alert };

/** An alert after a step; null when there is none. */
export type Step = { readonly alert: Alert | null; readonly change: AlertChange["change"] | null };

type Timing = Pick<Rule, "holdMs" | "clearHoldMs">;

/**
 * One alert, one judgement later. It is raised after it has held for `holdMs`, cleared after it has been clear
 * for `clearHoldMs`; between the two thresholds it stays as it is. Its severity may rise while it is open,
 * after the same holding time, and never falls: who was called now is not told "soon" a minute later.
 */
export function stepAlert(
  alert: Alert | null,
  judged: Judged,
  timing: Timing,
  at: { readonly boothId: string; readonly atMs: number; readonly newId: () => string },
): Step {
  if (judged.stands === "unseen") return { alert, change: null };
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
 * a cleared one appears in `changes` only.
 */
export function stepAlerts(
  alerts: readonly Alert[],
  judgements: readonly Judged[],
  at: { readonly boothId: string; readonly atMs: number; readonly newId: () => string },
): { readonly alerts: readonly Alert[]; readonly changes: readonly AlertChange[] } {
  const living: Alert[] = [];
  const changes: AlertChange[] = [];
  for (const rule of rules) {
    const before = alerts.find(({ matter, phase }) => matter === rule.matter && phase !== "cleared") ?? null;
    const judged = judgements.find(({ matter }) => matter === rule.matter);
    const step = judged === undefined ? { alert: before, change: null } : stepAlert(before, judged, rule, at);
    if (step.alert !== null && step.alert.phase !== "cleared") living.push(step.alert);
    if (step.alert !== null && step.change !== null) changes.push({ change: step.change, alert: step.alert });
  }
  return { alerts: living, changes };
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
  };
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

function stepClear(alert: Alert | null, { clearHoldMs }: Timing, atMs: number): Step {
  if (alert === null || alert.phase === "holding") return { alert: null, change: null };
  const clearFromAtMs = alert.clearFromAtMs ?? atMs;
  const clearing = { ...alert, phase: "clearing" as const, clearFromAtMs, worseFromAtMs: null };
  if (atMs - clearFromAtMs < clearHoldMs) return { alert: clearing, change: null };
  return { alert: { ...clearing, phase: "cleared", clearedAtMs: atMs }, change: "cleared" };
}

/** The alert with what was judged now. */
function taken(alert: Alert, judged: Standing): Alert {
  const { since } = judged;
  const isKept = since === null || (since.isAtLatest && alert.sinceAtMs < since.atMs);
  return { ...alert, ...figuresOf(judged), sinceAtMs: isKept ? alert.sinceAtMs : since.atMs };
}
