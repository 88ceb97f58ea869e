import type { FileProblem } from "@boothward/shared-types";
import { IANAZone } from "luxon";
import * as z from "zod";
import { matchPlan } from "../documents/planFiles/matchPlan.ts";
import { columnOf, readPlanTable, writePlanTable } from "../documents/planFiles/planTable.ts";
import { readCalendar } from "../documents/planFiles/readCalendar.ts";
import { writeCalendar } from "../documents/planFiles/writeCalendar.ts";
import { no, readBody, type Answer } from "./answer.ts";
import { fileReadOf } from "./fileRead.ts";
import { ownerRoute, takesFile, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

export const zoneName = z
  .string()
  .max(60)
  .refine((zone) => IANAZone.isValidZone(zone), "is not a time zone");

const importBody = z.object({
  format: z.enum(["csv", "ics"]),
  text: z.string(),
  /** Times that have no zone of their own are read in it. */
  zone: zoneName,
  /** The booth of entries that name none; empty: they are refused. */
  booth: z.string().max(120).default(""),
  /** Only look what the file would do. */
  isLook: z.boolean(),
});

const changedMeanwhile = no(
  409,
  "changedMeanwhile",
  "The run sheet was changed while the file was read, and nothing of the file was kept. Please look again.",
);

/** The run sheet as a file, and a file into the run sheet: all of it, or nothing. */
export function planFileRoutes({
  store,
  makeId,
  onPlanChanged,
}: Pick<HttpSurroundings, "store" | "makeId" | "onPlanChanged">): Route[] {
  async function read(body: unknown): Promise<Answer> {
    const asked = readBody(importBody, body);
    if ("refusal" in asked) return asked.refusal;
    const { format, text, zone, booth, isLook } = asked.value;
    const bookings = await store.bookings.all();
    const file =
      format === "csv"
        ? { ...(await readPlanTable(text, zone, bookings)), skipped: [] }
        : await readCalendar(text, { zone, booth }, bookings);
    const match = await matchPlan(file.raws, { bookings, booths: await store.booths.all(), makeId });
    const problems = [...file.problems, ...match.problems].map(forPeople).sort((a, b) => a.line - b.line);
    const skipped = file.skipped.map((each) => ({ ...each, does: "skipped" as const }));
    const isKept = !isLook && problems.length === 0;
    if (isKept) {
      const moved = new Set(match.bookings.map(({ bookingId }) => bookingId));
      const before = bookings.filter(({ bookingId }) => moved.has(bookingId));
      if (!(await store.bookings.saveAll(match.bookings, bookings))) return changedMeanwhile;
      const changed = new Set([...before, ...match.bookings].map(({ boothId }) => boothId));
      for (const boothId of changed) await onPlanChanged(boothId);
    }
    return { status: 200, body: fileReadOf([...match.rows, ...skipped], problems, isKept) };
  }

  return [
    ownerRoute("get", "/api/bookings.csv", "planEvents", async () => {
      const bytes = writePlanTable(await store.bookings.all(), await store.booths.all());
      return {
        status: 200,
        body: null,
        file: { bytes, type: "text/csv; charset=utf-8", name: "run-sheet.csv" },
      };
    }),
    ownerRoute("get", "/api/bookings.ics", "planEvents", async ({ atMs }) => {
      const bytes = writeCalendar(await store.bookings.all(), await store.booths.all(), atMs);
      return {
        status: 200,
        body: null,
        file: { bytes, type: "text/calendar; charset=utf-8", name: "run-sheet.ics" },
      };
    }),
    takesFile(ownerRoute("post", "/api/bookings/import", "planEvents", ({ body }) => read(body))),
  ];
}

/** A problem by the column that a person sees. */
function forPeople(problem: FileProblem): FileProblem {
  return { ...problem, column: columnOf(problem.column) };
}
