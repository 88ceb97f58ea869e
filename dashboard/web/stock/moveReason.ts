import type { MoveInput } from "@boothward/shared-types/stock";

/** Why rolls move, from where they go: a person need not say both. */
export function moveReason(fromPlace: string, toPlace: string): MoveInput["why"] {
  if (fromPlace === "supplier") return "bought";
  if (toPlace === "lost") return "lost";
  if (toPlace === "used") return "used";
  if (fromPlace === "used" || fromPlace === "lost") return "corrected";
  return toPlace === "store" ? "returned" : "loaded";
}
