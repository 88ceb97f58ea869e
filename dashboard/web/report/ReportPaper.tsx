import type { ClientReport } from "@boothward/shared-types/report";
import { hourRows } from "../../reports/hourRows.ts";
import {
  busiestOf,
  clockChangeOf,
  headlineOf,
  kickerOf,
  pauseLines,
  promiseOf,
  readyOf,
  reportWords,
} from "../../reports/reportWords.ts";
import { venueFormat, type VenueFormat } from "../../reports/venueFormat.ts";
import { SessionBars } from "../charts/SessionBars.tsx";
import { FigureTable } from "../parts/FigureTable.tsx";
import { AsTable } from "../parts/AsTable.tsx";
import { units } from "../state/signals.ts";
import { formatIn } from "../../alerts/format.ts";
import { report as words } from "../words/en/reports.ts";
import "../styles/report.css";

type Business = { name: string; logoAddress: string | null };

/** More rows than this tell nobody more: the quarter-hours stand below. */
const mostHourRows = 16;

/** The client's report as a sheet of paper: the same on the owner's page, on the client's and in print. */
export function ReportPaper({ report, business }: { report: ClientReport; business: Business | null }) {
  const format = venueFormat(report.zone);
  const busiest = busiestOf(report, format);
  return (
    <article class="paper">
      {business?.logoAddress != null && <img class="logo" src={business.logoAddress} alt={business.name} />}
      <p class="kick">{kickerOf(report, format)}</p>
      <h1 tabIndex={-1}>{headlineOf(report, format)}</h1>
      <Figures report={report} format={format} />
      {busiest !== null && (
        <>
          <h2>{busiest}</h2>
          <Bars report={report} label={`${reportWords.bars} ${busiest}`} />
        </>
      )}
      <h2>{reportWords.table}</h2>
      <Hours report={report} format={format} />
      <h2>{reportWords.pauses}</h2>
      <ul>
        {pauseLines(report, format).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p class="small foot">{footOf(report, format, business?.name ?? "")}</p>
    </article>
  );
}

function Figures({ report, format }: { report: ClientReport; format: VenueFormat }) {
  const { figures, corrected, time } = report;
  const ready = readyOf(report, format);
  const shown = (n: number | null) => (n === null ? reportWords.unknown : format.count(n));
  const mark = (isCorrected: boolean) => (isCorrected ? ` (${reportWords.corrected})` : "");
  const isInPrints = figures.prints !== null;
  const facts = [
    [shown(figures.sessions), reportWords.sessions + mark(corrected.includes("sessions"))],
    isInPrints
      ? [shown(figures.prints), reportWords.prints + mark(corrected.includes("prints"))]
      : [shown(figures.sheets), reportWords.sheets + mark(corrected.includes("sheets"))],
    [ready.figure, ready.of + mark(corrected.includes("readyMin"))],
  ];
  const promise = promiseOf(report, format);
  return (
    <>
      <div class="three-facts">
        {facts.map(([figure = "", label = ""]) => (
          <div key={label}>
            <b>{figure}</b>
            <span>{label}</span>
          </div>
        ))}
      </div>
      {promise !== null && <p class="small">{promise}</p>}
      {time.unknownMs >= 60_000 && (
        <p class="small">{`Of ${format.length(time.unknownMs)} it is not known whether the booth was ready.`}</p>
      )}
    </>
  );
}

function Bars({ report, label }: { report: ClientReport; label: string }) {
  const format = formatIn(report.zone, units.value);
  const quarters = report.quarters.map(({ atMs, sessions, sheets }) => ({
    ...{ atMs, sessions, pitches: sheets ?? 0 },
  }));
  const rows = report.quarters.map((quarter) => [
    format.clock(quarter.atMs),
    format.count(quarter.sessions),
    ...[quarter.prints, quarter.sheets].map((n) => (n === null ? reportWords.unknown : format.count(n))),
  ]);
  const { hour, sessions, prints, sheets } = words.columns;
  return (
    <>
      <SessionBars quarters={quarters} format={format} label={label} />
      <p class="cap small">{reportWords.bars}</p>
      <div class="noprint">
        <AsTable columns={[hour, sessions, prints, sheets]} rows={rows} />
      </div>
    </>
  );
}

function Hours({ report, format }: { report: ClientReport; format: VenueFormat }) {
  const { figures } = report;
  const hasChanged = clockChangeOf(report) !== null;
  const at = (atMs: number) => format.clock(atMs) + (hasChanged ? ` ${format.stamp(atMs).slice(-6)}` : "");
  const shown = (n: number | null) => (n === null ? reportWords.unknown : format.count(n));
  const rows = hourRows(report.quarters, report.zone, mostHourRows).map((row) => [
    `${at(row.atMs)} to ${at(row.toAtMs)}`,
    ...[row.sessions, row.prints, row.sheets].map(shown),
  ]);
  const sum = [reportWords.evening, ...[figures.sessions, figures.prints, figures.sheets].map(shown)];
  const { hour, sessions, prints, sheets } = words.columns;
  return <FigureTable columns={[hour, sessions, prints, sheets]} rows={rows} sum={sum} />;
}

function footOf(report: ClientReport, format: VenueFormat, name: string): string {
  const lines = [
    ...[words.zone(format.zone(report.openAtMs)), clockChangeOf(report)],
    ...[report.isInvented ? reportWords.invented : null, reportWords.footer],
    ...[report.corrected.length > 0 ? reportWords.correctedFooter : null, name === "" ? null : `${name}.`],
  ];
  return lines.filter((line) => line !== null).join(" ");
}
