import type { PlanView } from "@boothward/shared-types/planView";
import type { Format } from "../../alerts/format.ts";
import { plan as words } from "../words/en/plan.ts";
import { listed } from "../words/en/today.ts";

/** The shortest day by the clocks: where they go forward. */
const wholeDayMs = 23 * 3_600_000;

/** When the sun reaches the printer on the day of a booking; in the polar day its clock times would say nothing. */
export function sunText(sun: PlanView["sun"], format: Pick<Format, "clock">): string {
  if (sun === null) return words.sunUnknown;
  if (sun.length === 0) return words.sunNever;
  if (sun.some(({ fromAtMs, toAtMs }) => toAtMs - fromAtMs >= wholeDayMs)) return words.sunAlways;
  const times = sun.map(({ fromAtMs, toAtMs }) => words.fromTo(format.clock(fromAtMs), format.clock(toAtMs)));
  return words.sunReaches(listed(times));
}
