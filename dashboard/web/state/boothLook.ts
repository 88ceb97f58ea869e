import type { AlertView, BoothView } from "@boothward/shared-types/view";

/** How a booth is drawn: one tone for card, chip and edge. */
export type Tone = "fine" | "watch" | "plan" | "act" | "silent" | "unknown";

/** After this long without the dashboard, what a page shows is grey. */
export const greyAfterMs = 30_000;

const rank = { actNow: 0, plan: 1, note: 2 } as const;

/** As booths are ordered: one that stands still comes first; a silent one may only be cut off, and comes last. */
const byMatter = ({ matter }: AlertView): number =>
  matter === "printerStopped" ? 0 : matter === "agentSilent" ? 2 : 1;

/** Alerts with the most pressing first: now before soon, a stopped printer, then the earlier latest moment. */
export function byUrgency(alerts: readonly AlertView[]): AlertView[] {
  return [...alerts].sort(
    (a, b) =>
      rank[a.severity] - rank[b.severity] ||
      byMatter(a) - byMatter(b) ||
      (a.byAtMs ?? Infinity) - (b.byAtMs ?? Infinity) ||
      a.sinceAtMs - b.sinceAtMs,
  );
}

const atRest: readonly AlertView["state"][] = ["returnedUnacknowledged", "suppressed", "outOfService"];

/** Those that somebody may have to see to: not what is over, silenced or switched off. */
export function standing(alerts: readonly AlertView[]): AlertView[] {
  return alerts.filter(({ state }) => !atRest.includes(state));
}

/** The alert a card speaks of: the most pressing one that is more than good to know. */
export function pressingAlert(booth: BoothView): AlertView | null {
  const [first] = byUrgency(standing(booth.alerts));
  return first === undefined || first.severity === "note" ? null : first;
}

/** A printer that stands still for which nobody is called, as the booth is being set up or packed down. */
export function quietStop(booth: BoothView): AlertView | null {
  if (booth.health !== "stopped") return null;
  const isQuiet = ({ matter, suppressedBy, overAtMs }: AlertView) =>
    matter === "printerStopped" &&
    (suppressedBy === "settingUp" || suppressedBy === "packingDown") &&
    overAtMs === null;
  return booth.alerts.find(isQuiet) ?? null;
}

export function needsSomebodyNow(booth: BoothView): boolean {
  const isStopped = booth.health === "stopped" && quietStop(booth) === null;
  return isStopped || standing(booth.alerts).some((alert) => alert.severity === "actNow");
}

export type PaperOutlook = "lasts" | "mayLast" | "ends" | "notKnown";

/** From this chance on it is said that a roll lasts. */
export const lastsFrom = 0.9;

/** Whether the loaded roll is expected to reach the close: nine times in ten, at least half, or not. */
export function paperOutlook(booth: BoothView): PaperOutlook {
  const media = booth.outlook.media;
  if (media === null || booth.booking === null) return "notKnown";
  if (media.lastsChance >= lastsFrom) return "lasts";
  return media.lastsChance >= 0.5 ? "mayLast" : "ends";
}

/** The paper may not reach the close. That is watched before the alert on it, which is held for a while. */
function mayRunOut(booth: BoothView): boolean {
  const outlook = paperOutlook(booth);
  return outlook === "mayLast" || outlook === "ends";
}

/** Something is to be done or answered that no alert speaks of yet. */
function isWatched(booth: BoothView): boolean {
  const isAsking = booth.media?.question != null || booth.printer?.stalledSinceAtMs != null;
  return booth.health === "watch" || quietStop(booth) !== null || isAsking || mayRunOut(booth);
}

/** Tone of a booth; what is silent or unknown loses its paper whatever else is said of it. */
export function toneOf(booth: BoothView, isCutOff: boolean): Tone {
  if (isCutOff || booth.heardAtMs === null) return "unknown";
  if (booth.health === "silent" || booth.health === "unknown") return booth.health;
  if (needsSomebodyNow(booth)) return "act";
  if (pressingAlert(booth) !== null || booth.health === "needsAHand") return "plan";
  return isWatched(booth) ? "watch" : "fine";
}

/** What is shown of the booth is of the past: nobody hears it, or nobody hears the dashboard. */
export function isOld(booth: BoothView, isCutOff: boolean): boolean {
  if (isCutOff || booth.heardAtMs === null || booth.health === "silent") return true;
  return booth.health === "unknown" && !booth.isLinked;
}

/** Those that need somebody now: first who has stopped, last who may only be cut off. */
function pressRank(booth: BoothView): number {
  if (!needsSomebodyNow(booth)) return 3;
  if (booth.health === "silent") return 2;
  return booth.health === "stopped" ? 0 : 1;
}

/** The dashboard's order, with those that need somebody now on top. */
export function inOrder(booths: readonly BoothView[]): BoothView[] {
  return [...booths].sort((a, b) => pressRank(a) - pressRank(b));
}
