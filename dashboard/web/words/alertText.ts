import { signal } from "@preact/signals";
import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { commonWords } from "../../alerts/commonWords.ts";
import { chipOf, tellingOf, type AlertWords, type Telling } from "../../alerts/telling.ts";
import type { Format } from "../../alerts/format.ts";

export { saysWhatToDo } from "../../alerts/telling.ts";

/** The words for what not every event sees: fetched when one is first shown, null until then. */
const rarer = signal<((telling: Telling) => AlertWords) | null>(null);
let isFetching = false;

/** The words of a booth's alert, in the venue's zone and the reader's units. */
export function alertText(alert: AlertView, booth: BoothView, atMs: number, format: Format): AlertWords {
  const telling = tellingOf(alert, booth.name, booth.isTrailer, atMs, format);
  const words = commonWords(telling) ?? rarer.value?.(telling);
  if (words !== undefined) return words;
  fetchRarer();
  return wordsMeanwhile(telling);
}

/** Whoever asks again after a failure tries again. */
function fetchRarer(): void {
  if (isFetching) return;
  isFetching = true;
  import("../../alerts/rarerWords.ts").then(
    ({ rarerWords }) => (rarer.value = rarerWords),
    () => (isFetching = false),
  );
}

/** What is true of any alert. */
function wordsMeanwhile({ alert, who, format }: Telling): AlertWords {
  return {
    headline: `${who} needs somebody to look at it.`,
    doNow: "Look at the booth.",
    detail: `Since ${format.clock(alert.sinceAtMs)}.`,
    chip: chipOf(alert, format),
  };
}
