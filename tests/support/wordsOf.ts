import type { AlertView } from "@boothward/shared-types";
import { noFigures } from "../../dashboard/alerts/alert.ts";
import type { Formatter } from "../../dashboard/alerts/telling.ts";
import { alertWords } from "../../dashboard/alerts/words.ts";
import { minuteMs, sixAtMs } from "./aStoredItem.ts";

/** Clock times in UTC, temperatures in Celsius, counts as in English. */
export const plainFormat: Formatter = {
  clock: (atMs) => new Date(atMs).toISOString().slice(11, 16),
  minutes: (lengthMs) => `${Math.round(lengthMs / minuteMs)} minutes`,
  temperature: (c) => `${c} °C`,
  count: (n) => n.toLocaleString("en"),
};
/** When the words are read: 29 minutes after what they tell began. */
export const readAtMs = sixAtMs + 29 * minuteMs;

/** The view of an alert on a printer that stopped at six, without figures. */
export function aToldAlert(over: Partial<AlertView> = {}): AlertView {
  return {
    ...{ alertId: "alert", boothId: "sorrel", matter: "printerStopped", severity: "actNow" },
    ...{ sinceAtMs: sixAtMs, ...noFigures },
    ...{ state: "unacknowledged", taken: null, laterUntilAtMs: null, doneAtMs: null },
    ...{ suppressedBy: null, overAtMs: null },
    ...over,
  };
}

/** What is said of it at `readAtMs`. */
export function wordsOf(over: Partial<AlertView>, name = "Sorrel", isTrailer = false) {
  return alertWords(aToldAlert(over), name, isTrailer, readAtMs, plainFormat);
}
