import { figureWord, type FigureWord, type Report } from "@boothward/shared-types";
import * as z from "zod";
import { figureOf } from "../reports/withMore.ts";
import { no, readBody, type Answer } from "./answer.ts";
import { clientCsvAnswer, ownerCsvAnswer, pdfAnswer, seasonCsvAnswer } from "./reportFiles.ts";
import { ownerRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const noSuchBooking = no(404, "noSuchBooking", "There is no such booking; it may have been taken out.");
const nothingYet = no(409, "nothingYet", "This event has not opened yet: there is nothing to report.");

/** A file that lacks some would be added up as if it had all. */
const stillCounting = no(
  409,
  "stillCounting",
  "Some evenings are still being counted: ask again in a moment.",
);

/** More than any evening has; a day has 1,440 minutes, and a booking two days at most. */
const mostFigure = 100_000;

const correctionBody = z.object({
  field: figureWord,
  becomes: z.int().min(0).max(mostFigure),
  why: z.string().trim().min(1).max(200),
});

/** The longest history that is asked for at once: more than a season. */
const instant = z.coerce
  .number()
  .min(0)
  .max(Date.UTC(2100, 0, 1));
const historyQuery = z.object({ fromAtMs: instant, toAtMs: instant });

/** Reports for the owner: of one evening, of a season, as files, and what is put right in them. */
export function reportRoutes({ store, reports, makeId }: HttpSurroundings): Route[] {
  /** A route that needs the report it is about. */
  async function withReport(
    { params, atMs }: Pick<Asked, "params" | "atMs">,
    answer: (report: Report) => Answer | Promise<Answer>,
  ): Promise<Answer> {
    const found = await reports.of(params["bookingId"] ?? "", atMs);
    if (found === "noSuchBooking") return noSuchBooking;
    return found === "nothingYet" ? nothingYet : answer(found);
  }

  return [
    ownerRoute("get", "/api/reports", "seeReports", async ({ query, atMs }) => {
      const read = readBody(historyQuery, query);
      if ("refusal" in read) return read.refusal;
      return { status: 200, body: await reports.history(read.value, atMs) };
    }),
    ownerRoute("get", "/api/reports.csv", "seeReports", async ({ query, atMs }) => {
      const read = readBody(historyQuery, query);
      if ("refusal" in read) return read.refusal;
      const { rows, waiting } = await reports.history(read.value, atMs);
      return waiting > 0 ? stillCounting : seasonCsvAnswer(rows);
    }),
    ownerRoute("get", "/api/reports/:bookingId", "seeReports", (asked) =>
      withReport(asked, (report) => ({ status: 200, body: report })),
    ),
    ownerRoute("get", "/api/reports/:bookingId/report.pdf", "seeReports", (asked) =>
      withReport(asked, async ({ client }) => pdfAnswer(client, await reports.business())),
    ),
    ownerRoute("get", "/api/reports/:bookingId/report.csv", "seeReports", (asked) =>
      withReport(asked, ownerCsvAnswer),
    ),
    ownerRoute("get", "/api/reports/:bookingId/client.csv", "seeReports", (asked) =>
      withReport(asked, ({ client }) => clientCsvAnswer(client)),
    ),
    ownerRoute("post", "/api/reports/:bookingId/corrections", "seeReports", (asked) =>
      withReport(asked, async (report) => {
        const read = readBody(correctionBody, asked.body);
        if ("refusal" in read) return read.refusal;
        const { field, becomes: is, why } = read.value;
        const was = figureOf(report, field);
        const wrong = whyNot(report, field, is, was);
        if (wrong !== null) return no(400, "wrongField", `becomes: ${wrong}.`, "becomes");
        const { bookingId } = report.owner;
        const said = { bookingId, field, was, is, why, by: asked.signed.name, atMs: asked.atMs };
        await store.reports.correct({ correctionId: makeId(), ...said });
        return withReport(asked, (corrected) => ({ status: 201, body: corrected }));
      }),
    ),
  ];
}

function whyNot(report: Report, field: FigureWord, is: number, was: number | null): string | null {
  if (is === was) return `${is} is what the report says already`;
  const promisedMin = Math.round(report.client.time.promisedMs / 60_000);
  if (field === "readyMin" && is > promisedMin)
    return `${is} minutes are more than the ${promisedMin} promised`;
  return null;
}
