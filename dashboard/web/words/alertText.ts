import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { alertWords } from "../../alerts/words.ts";
import type { AlertWords } from "../../alerts/words.ts";
import type { Format } from "./format.ts";

export { saysWhatToDo } from "../../alerts/telling.ts";

/** The words of a booth's alert, in the venue's zone and the reader's units. */
export function alertText(alert: AlertView, booth: BoothView, atMs: number, format: Format): AlertWords {
  return alertWords(alert, booth.name, booth.isTrailer, atMs, format);
}
