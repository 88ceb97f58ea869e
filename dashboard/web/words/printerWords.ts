import type { BoothView } from "@boothward/shared-types/view";
import { reasonWords } from "../../alerts/reasonWords.ts";
import { printerState } from "./en/facts.ts";

/** IPP's printer-state and reasons in words; a keyword that is not known is shown as it came. */
export function printerWords(printer: NonNullable<BoothView["printer"]>): string {
  const state = printer.state === null ? [] : [printerState[printer.state]];
  const reasons = printer.reasons
    .filter((reason) => reason !== "none")
    .map((reason) => reasonWords(reason.replace(/-(report|warning|error)$/, "")));
  return [...new Set([...state, ...reasons])].join(", ");
}
