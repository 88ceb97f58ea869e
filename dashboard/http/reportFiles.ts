import type { BusinessSettings, ClientReport, Report, ReportRow } from "@boothward/shared-types";
import { readLogo } from "../documents/logo.ts";
import { reportPdf } from "../documents/reportPdf.ts";
import { writeTable } from "../documents/tables/writeTable.ts";
import { clientCsvRows, ownerCsvRows, seasonCsvRows } from "../reports/csvRows.ts";
import { venueFormat } from "../reports/venueFormat.ts";
import { no, type Answer } from "./answer.ts";

const pdfType = "application/pdf";
/** RFC 4180 section 3, RFC 7111: there is a record of names. */
const csvType = "text/csv; charset=utf-8; header=present";

/** The client's report as one printed sheet. The time of its making is that of its last count. */
export async function pdfAnswer(report: ClientReport, business: BusinessSettings): Promise<Answer> {
  const logo = business.logo === null ? null : readLogo(business.logo);
  const shown = { name: business.name, paper: business.paper, logo: logo && "bytes" in logo ? logo : null };
  const bytes = await reportPdf(report, shown, report.throughAtMs);
  return { status: 200, body: null, file: { bytes, type: pdfType, name: `${nameOf(report)}.pdf` } };
}

export function clientCsvAnswer(report: ClientReport): Answer {
  const bytes = writeTable(clientCsvRows(report));
  return { status: 200, body: null, file: { bytes, type: csvType, name: `${nameOf(report)}.csv` } };
}

export function ownerCsvAnswer(report: Report): Answer {
  const bytes = writeTable(ownerCsvRows(report));
  const name = `${nameOf(report.client)}, all figures.csv`;
  return { status: 200, body: null, file: { bytes, type: csvType, name } };
}

export function seasonCsvAnswer(rows: readonly ReportRow[]): Answer {
  const bytes = writeTable(seasonCsvRows(rows));
  return { status: 200, body: null, file: { bytes, type: csvType, name: "evenings.csv" } };
}

export function logoAnswer({ logo }: BusinessSettings): Answer {
  const read = logo === null ? null : readLogo(logo);
  if (read === null || "sentence" in read) return no(404, "noLogo", "There is no logo.");
  return { status: 200, body: null, file: { bytes: read.bytes, type: read.type, name: null } };
}

/** "2026-06-20 Edda and Rowan". */
function nameOf({ client, openAtMs, zone }: ClientReport): string {
  return `${venueFormat(zone).stamp(openAtMs).slice(0, 10)} ${client}`;
}
