import type { SaidFact } from "@boothward/shared-types/view";
import { said as words } from "./en/desk.ts";
import type { Format } from "../../alerts/format.ts";

/** A person's word about the paper as one line. */
export function saidText(kind: SaidFact["kind"], sheets: number | null, format: Format): string {
  const n = sheets === null ? null : format.count(sheets);
  switch (kind) {
    case "rollFitted":
      return words.rollFitted(n);
    case "rollTakenOff":
      return words.rollTakenOff(n);
    case "correction":
      return words.correction(n);
    case "waste":
      return words.waste(n, sheets === 1);
    case "rollDenied":
      return words.rollDenied;
  }
}
