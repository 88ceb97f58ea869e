import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { isAboutPaper } from "../answers/answering.ts";

/** What this page remembers of an alert that somebody called done, so that it can say thank you when it is over. */
export type DoneMemory = {
  /** Said to be done, and still open. */
  open: readonly AlertView[];
  thanks: { isPaper: boolean; atMs: number } | null;
};

export const nothingDone: DoneMemory = { open: [], thanks: null };

/** So long thanks are shown. */
const thanksForMs = 90_000;

/** The memory after a look at the booth. `doneIds`: alerts that were called done here and may not be sent yet. */
export function followDone(
  memory: DoneMemory,
  booth: BoothView,
  doneIds: ReadonlySet<string>,
  nowMs: number,
): DoneMemory {
  const open = booth.alerts.filter(
    ({ alertId, doneAtMs, overAtMs }) => overAtMs === null && (doneAtMs !== null || doneIds.has(alertId)),
  );
  const seen = memory.open.find((was) => !booth.alerts.some((alert) => isStill(was, alert)));
  if (seen !== undefined) return { open, thanks: { isPaper: isAboutPaper(seen), atMs: nowMs } };
  const isOldThanks = memory.thanks !== null && nowMs - memory.thanks.atMs > thanksForMs;
  return { open, thanks: isOldThanks ? null : memory.thanks };
}

const isStill = (was: AlertView, alert: AlertView): boolean =>
  alert.alertId === was.alertId && alert.overAtMs === null;
