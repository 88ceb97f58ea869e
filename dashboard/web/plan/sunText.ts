import type { PlanView } from "@boothward/shared-types/planView";
import type { Format } from "../../alerts/format.ts";
import { isSunAllDay } from "../parts/isSunAllDay.ts";
import { plan as words } from "../words/en/plan.ts";
import { listed } from "../words/en/today.ts";

/** When the sun reaches the printer on the day of a booking. */
export function sunText(sun: PlanView["sun"], format: Pick<Format, "clock">): string {
  if (sun === null) return words.sunUnknown;
  if (sun.length === 0) return words.sunNever;
  if (isSunAllDay(sun)) return words.sunAlways;
  const times = sun.map(({ fromAtMs, toAtMs }) => words.fromTo(format.clock(fromAtMs), format.clock(toAtMs)));
  return words.sunReaches(listed(times));
}
