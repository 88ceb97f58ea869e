import type { Booking } from "@boothward/shared-types";
import { matchPlan, type PlanMatch } from "../../dashboard/documents/planFiles/matchPlan.ts";
import { readPlanTable } from "../../dashboard/documents/planFiles/planTable.ts";
import { readCalendar } from "../../dashboard/documents/planFiles/readCalendar.ts";

export const booths = [
  { boothId: "juniper", name: "Juniper" },
  { boothId: "thistle", name: "Thistle" },
];

/** What reading a table into a plan would do. */
export async function fromTable(
  text: string,
  bookings: readonly Booking[] = [],
  zone = "Europe/Berlin",
): Promise<PlanMatch> {
  const { raws, problems } = await readPlanTable(text, zone, bookings);
  const match = await matchPlan(raws, { bookings, booths, makeId: counting() });
  return { ...match, problems: [...problems, ...match.problems] };
}

/** What reading a calendar for Juniper into a plan would do. */
export async function fromCalendar(
  text: string,
  bookings: readonly Booking[] = [],
  zone = "Europe/Berlin",
): Promise<PlanMatch> {
  const { raws, problems } = await readCalendar(text, { zone, booth: "juniper" }, bookings);
  const match = await matchPlan(raws, { bookings, booths, makeId: counting() });
  return { ...match, problems: [...problems, ...match.problems] };
}

function counting(): () => string {
  let made = 0;
  return () => `new-${(made += 1)}`;
}

/** What becomes of each row. */
export const does = ({ rows }: PlanMatch) => rows.map((row) => row.does);
