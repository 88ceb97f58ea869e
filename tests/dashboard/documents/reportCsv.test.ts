import { parse } from "csv-parse/sync";
import { describe, expect, it } from "vitest";
import { writeTable } from "../../../dashboard/documents/tables/writeTable.ts";
import { clientCsvRows, ownerCsvRows, seasonCsvRows } from "../../../dashboard/reports/csvRows.ts";
import { reportRowOf, seasonTotals } from "../../../dashboard/reports/seasonTotals.ts";
import { aClientReport, aReport } from "../../support/aReport.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";

const read = (text: string) => parse(text, { bom: true, record_delimiter: "\r\n" });

describe("the CSV file of a report", () => {
  it("for the client has a record for each quarter-hour, then the totals, all of the same fields", () => {
    const report = aClientReport();
    const records = read(writeTable(clientCsvRows(report)));
    expect(new Set(records.map((record) => record.length))).toEqual(new Set([6]));
    const quarters = records.filter(([what]) => what === "quarter-hour");
    expect(quarters).toHaveLength(20);
    // London is an hour ahead of UTC in June (tz database).
    expect(quarters[0]).toEqual([
      ...["quarter-hour", "2026-06-20T19:00:00+01:00", "2026-06-20T19:15:00+01:00"],
      ...["3", "6", "6"],
    ]);
    const sum = quarters.reduce((total, record) => total + Number(record[3]), 0);
    const evening = records.find(([what]) => what === "evening") ?? [];
    expect(Number(evening[3])).toBe(sum);
    expect(records.find(([what]) => what === "minutes ready")?.[3]).toBe("287");
  });

  it("for the client holds nothing of the owner's, and for the owner all of it", () => {
    const report = aReport(
      { client: '=HYPERLINK("http://x")' },
      {
        corrections: [{ field: "sheets", was: 408, is: 400, why: "two, spoilt", by: "Ama", atMs: sixAtMs }],
      },
    );
    const clients = writeTable(clientCsvRows(report.client));
    for (const word of ["cost", "alert", "wasted", "73.15", "Ama"]) expect(clients).not.toContain(word);
    const owners = read(writeTable(ownerCsvRows(report)));
    const field = (part: string, name: string) => owners.find(([a, b]) => a === part && b === name)?.[2];
    expect(field("event", "client")).toBe(`'=HYPERLINK("http://x")`);
    expect(field("cost", "EUR")).toBe("73.15");
    expect(field("sheets by source", "jobs")).toBe("399");
    expect(field("corrected", "sheets")).toBe("400");
    expect(field("paper", "wasted: change")).toBe("3");
  });

  it("for a season has a record for each evening, whose numbers add up to the season's", () => {
    const reports = [aReport(), aReport({ client: "Brook Library", zone: "America/New_York" })];
    const rows = reports.map(reportRowOf);
    const [names = [], ...records] = read(writeTable(seasonCsvRows(rows)));
    const sum = (name: string) =>
      records.reduce((total, record) => total + Number(record[names.indexOf(name)]), 0);
    const totals = seasonTotals(rows);
    expect(records).toHaveLength(2);
    expect(sum("sessions")).toBe(totals.sessions);
    expect(sum("sheets used")).toBe(totals.sheetsUsed);
    expect(sum("minutes ready") * 60_000).toBe(totals.readyMs);
    // New York is four hours behind UTC in June (tz database).
    expect(records[1]?.[0]).toBe("2026-06-20T14:00:00-04:00");
  });
});
