import type { Role, Severity } from "@boothward/shared-types";
import type { Alert } from "./alert.ts";
import { alertState } from "./alertState.ts";
import type { Rule } from "./rules.ts";
import type { Reach } from "./scene.ts";

/** One message that is due about an alert, before it has words. `key` makes it the only one of its sort. */
export type NoticeDue = {
  readonly key: string;
  readonly why: "raised" | "worse" | "repeat" | "escalated";
  readonly toRole: Role;
};

/** How the business wants to hear. Minutes; `repeatAfterMin` until the first repeat. */
export type Routing = {
  readonly escalateAfterMin: Readonly<Record<"actNow" | "plan", number>>;
  readonly repeatAfterMin: number;
};

const minuteMs = 60_000;

/**
 * "Now" that nobody answers is said so often and then no more, each time after twice as long: a phone that buzzes every
 * ten minutes for what nobody there can help is muted, and then misses the next booth's.
 */
const mostRepeats = 4;

/** Taken, and still not over: the owner hears of it. Longer than any work at a booth takes. */
const takenTooLongMs = 15 * minuteMs;

/**
 * What has to be told about an alert at this moment and was not yet. "Good to know" is told on the page alone;
 * what is silenced, put off or over is not told; "soon" is told once to each; "now" again, ever more seldom, until
 * somebody takes it. Of what concerns the attendant the owner hears when nobody took it, and at once where no
 * attendant can be reached; what concerns both is told to both at once.
 *
 * In an `isQuietTime`, while the booth is set up or packed down, each is told once: nothing is said again, and nothing of
 * the attendant's is told to the owner as well.
 */
export function noticesDue(
  alert: Alert,
  rule: Pick<Rule, "concerns">,
  routing: Routing,
  reachable: Reach,
  { atMs, isQuietTime }: { readonly atMs: number; readonly isQuietTime: boolean },
): readonly NoticeDue[] {
  const state = alertState(alert, atMs);
  const { severity } = alert;
  if (severity === "note") return [];
  if (state === "acknowledged") return isQuietTime ? [] : stillOpen(alert, atMs);
  if (state !== "unacknowledged") return [];
  const raised = firstRoles(rule, reachable).flatMap((toRole) => first(alert, toRole));
  if (isQuietTime) return raised;
  const told = [...raised, ...escalation(alert, severity, routing, atMs)];
  return told.length > 0 ? told : repeats(alert, routing, atMs);
}

/** The alert with these notices noted as told. */
export function withTold(alert: Alert, due: readonly NoticeDue[], atMs: number): Alert {
  if (due.length === 0) return alert;
  return { ...alert, told: [...alert.told, ...due.map(({ key }) => ({ key, atMs }))] };
}

function firstRoles({ concerns }: Pick<Rule, "concerns">, { hasAttendant }: Reach): readonly Role[] {
  if (concerns === "owner" || !hasAttendant) return ["owner"];
  return concerns === "both" ? ["attendant", "owner"] : ["attendant"];
}

/** Raised, or worse than it was when this role was told. */
function first(alert: Alert, toRole: Role): NoticeDue[] {
  const key = `${toRole}:${alert.severity}`;
  if (wasTold(alert, key)) return [];
  const isWorse = alert.severity === "actNow" && wasTold(alert, `${toRole}:plan`);
  return [{ key, why: isWorse ? "worse" : "raised", toRole }];
}

function escalation(
  alert: Alert,
  severity: Exclude<Severity, "note">,
  { escalateAfterMin }: Routing,
  atMs: number,
): NoticeDue[] {
  const key = `owner:${severity}`;
  const attendantsAtMs = alert.told.find((each) => each.key === `attendant:${severity}`)?.atMs;
  if (attendantsAtMs === undefined || wasTold(alert, key)) return [];
  return atMs - attendantsAtMs >= escalateAfterMin[severity] * minuteMs
    ? [{ key, why: "escalated", toRole: "owner" }]
    : [];
}

/** To whoever was told already, all of them together. */
function repeats(alert: Alert, { repeatAfterMin }: Routing, atMs: number): readonly NoticeDue[] {
  if (alert.severity !== "actNow") return [];
  const lastAtMs = Math.max(...alert.told.map((each) => each.atMs));
  const count = new Set(alert.told.filter(({ key }) => key.startsWith("again:")).map((each) => each.atMs))
    .size;
  if (atMs - lastAtMs < repeatAfterMin * minuteMs * 2 ** count || count >= mostRepeats) return [];
  return (["attendant", "owner"] as const)
    .filter((toRole) => wasTold(alert, `${toRole}:actNow`))
    .map((toRole) => ({ key: `again:${count + 1}:${toRole}`, why: "repeat", toRole }));
}

function stillOpen(alert: Alert, atMs: number): readonly NoticeDue[] {
  const key = `owner:stillOpen:${alert.taken?.atMs ?? 0}`;
  const isLong = alert.taken !== null && atMs - alert.taken.atMs >= takenTooLongMs;
  if (!isLong || alert.severity !== "actNow" || wasTold(alert, key)) return [];
  return [{ key, why: "escalated", toRole: "owner" }];
}

function wasTold({ told }: Alert, key: string): boolean {
  return told.some((each) => each.key === key);
}
