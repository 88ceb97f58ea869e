import type { ClientReport } from "@boothward/shared-types";
import { hourRows } from "../reports/hourRows.ts";
import {
  busiestOf,
  clockChangeOf,
  headlineOf,
  kickerOf,
  pauseLines,
  promiseOf,
  readyOf,
  reportWords as words,
} from "../reports/reportWords.ts";
import { venueFormat, type VenueFormat } from "../reports/venueFormat.ts";
import type { Logo } from "./logo.ts";
import { marginPt, Sheet, type Look, type PaperName } from "./sheet.ts";

/** Whose report it is. */
export type Business = {
  readonly name: string;
  readonly logo: Logo | null;
  readonly paper: PaperName;
};

const accent = "#0e5266";
const grey = "#5a5a5a";
const hairline = "#c8c8c8";
const barGrey = "#595959";

const small: Look = { face: "plain", sizePt: 9, colour: grey };
const body: Look = { face: "plain", sizePt: 10.5 };
const heading: Look = { face: "voice", sizePt: 14 };

/** Above the lower margin: the three lines at the foot. */
const footPt = 30;
const barsPt = 84;
const hourRowPt = 18.5;
const pauseLinePt = 15.5;
/** A heading with the room above it, the table's first and last line. */
const headingPt = 34;
const tableEndsPt = 34;

/** More pauses than these are summed up, however much room there is. */
const mostPauses = 6;
const fewestRows = 4;

/**
 * The client's report on one sheet, A4 or Letter: black on white, the busiest quarter-hour in the one colour. The
 * same report, business and `madeAtMs` give the same bytes.
 */
export async function reportPdf(report: ClientReport, business: Business, madeAtMs: number): Promise<Buffer> {
  const isUs = business.paper === "letter";
  const format = venueFormat(report.zone, isUs ? "en-US" : "en-GB");
  const sheet = new Sheet(business.paper, {
    title: `${report.client}, ${format.day(report.openAtMs)}`,
    author: business.name,
    ...{ madeAtMs, language: isUs ? "en-US" : "en-GB" },
  });
  const wide = sheet.widthPt - 2 * marginPt;
  let y = drawTop(sheet, business);
  y = sheet.write(kickerOf(report, format), { ...small, mostLines: 3 }, marginPt, y, wide) + 6;
  const headline: Look = { face: "voice", sizePt: 24, mostLines: 3 };
  y = sheet.write(headlineOf(report, format), headline, marginPt, y, wide) + 8;
  y = drawFigures(sheet, report, format, y);
  const busiest = busiestOf(report, format);
  if (busiest !== null) {
    y = sheet.write(busiest, heading, marginPt, y, wide) + 6;
    y = drawBars(sheet, report, format, y);
  }
  y = sheet.write(words.table, heading, marginPt, y + 10, wide) + 4;
  const pausesPt = headingPt + pauseLinePt * Math.min(mostPauses, Math.max(1, report.pauses.length));
  const forRowsPt = footTop(sheet) - y - tableEndsPt - pausesPt;
  y = drawHours(sheet, report, format, y, Math.max(fewestRows, Math.floor(forRowsPt / hourRowPt)));
  y = sheet.write(words.pauses, heading, marginPt, y + 12, wide) + 4;
  const lines = Math.floor((footTop(sheet) - y) / pauseLinePt);
  for (const line of pauseLines(report, format, Math.max(1, Math.min(mostPauses, lines))))
    y = sheet.write(line, { ...body, mostLines: 1 }, marginPt, y, wide) + 2;
  drawFoot(sheet, report, business, format);
  return sheet.finish();
}

/** The business's own sign: its name on the left, its logo on the right. */
function drawTop(sheet: Sheet, { name, logo }: Business): number {
  const y = marginPt - 8;
  const wide = sheet.widthPt - 2 * marginPt;
  if (logo !== null) {
    const scale = Math.min(130 / logo.widthPx, 40 / logo.heightPx);
    const [widthPt, heightPt] = [logo.widthPx * scale, logo.heightPx * scale];
    const x = sheet.widthPt - marginPt - widthPt;
    sheet.doc.image(logo.bytes, x, y + (40 - heightPt) / 2, { width: widthPt, height: heightPt });
  }
  const nameLook: Look = { face: "strong", sizePt: 11, mostLines: 2 };
  if (name !== "") sheet.write(name, nameLook, marginPt, y + 12, logo === null ? wide : wide - 150);
  return name === "" && logo === null ? marginPt : y + 58;
}

function drawFigures(sheet: Sheet, report: ClientReport, format: VenueFormat, y: number): number {
  const { figures, corrected } = report;
  const wide = sheet.widthPt - 2 * marginPt;
  const ready = readyOf(report, format);
  const mark = (is: boolean) => (is ? ` (${words.corrected})` : "");
  const shown = (n: number | null) => (n === null ? words.unknown : format.count(n));
  const home =
    figures.prints === null
      ? [shown(figures.sheets), words.sheets + mark(corrected.includes("sheets"))]
      : [shown(figures.prints), words.prints + mark(corrected.includes("prints"))];
  const columns = [
    [shown(figures.sessions), words.sessions + mark(corrected.includes("sessions"))],
    home,
    [ready.figure, ready.of + mark(corrected.includes("readyMin"))],
  ];
  sheet.rule(y, "#000000", 1);
  columns.forEach(([figure = "", label = ""], at) => {
    const x = marginPt + (at * wide) / 3;
    const look: Look = { face: "strong", sizePt: 20, mostLines: 1 };
    sheet.write(figure, look, x, y + 10, wide / 3 - 8);
    sheet.write(label, { ...small, mostLines: 1 }, x, y + 37, wide / 3 - 8);
  });
  const below = [promiseOf(report, format), unknownOf(report, format)].filter((line) => line !== null);
  let next = y + 54;
  for (const line of below) next = sheet.write(line, small, marginPt, next, wide);
  sheet.rule(next + 4, hairline, 0.75);
  return next + 18;
}

function unknownOf({ time }: ClientReport, format: VenueFormat): string | null {
  if (time.unknownMs < 60_000) return null;
  return `Of ${format.length(time.unknownMs)} it is not known whether the booth was ready.`;
}

function drawBars(sheet: Sheet, report: ClientReport, format: VenueFormat, top: number): number {
  const { quarters, busiest } = report;
  const wide = sheet.widthPt - 2 * marginPt;
  const most = Math.max(1, ...quarters.map(({ sessions }) => sessions));
  const step = Math.min(30, wide / Math.max(1, quarters.length));
  const base = top + 14 + barsPt;
  quarters.forEach(({ atMs, sessions }, at) => {
    const height = (sessions / most) * barsPt;
    const x = marginPt + at * step;
    const isPeak = atMs === busiest?.atMs;
    if (height > 0)
      sheet.doc
        .rect(x + step * 0.06, base - height, step * 0.88, height)
        .fillColor(isPeak ? accent : barGrey)
        .fill();
    const label: Look = { face: "strong", sizePt: 9, align: "center" };
    if (isPeak) sheet.write(String(sessions), label, x + step / 2 - 20, base - height - 13, 40);
    if (isLabelled(at, quarters.length)) drawHour(sheet, format.clock(atMs), x, base + 4);
  });
  sheet.doc.moveTo(marginPt, base).lineTo(marginPt + quarters.length * step, base);
  sheet.doc.lineWidth(0.75).strokeColor(grey).stroke();
  return sheet.write(words.bars, small, marginPt, base + 20, wide);
}

function drawHour(sheet: Sheet, text: string, x: number, y: number): void {
  sheet.write(text, { ...small, sizePt: 8, mostLines: 1 }, x, y, 48);
}

/** Every hour, and on long evenings every second, fourth ... so that the times stand apart. */
function isLabelled(at: number, count: number): boolean {
  const every = [4, 8, 16, 32, 64].find((each) => count / each <= 12) ?? 64;
  return at % every === 0;
}

function drawHours(
  sheet: Sheet,
  report: ClientReport,
  format: VenueFormat,
  top: number,
  mostRows: number,
): number {
  const wide = sheet.widthPt - 2 * marginPt;
  const right = (column: number) => marginPt + wide * (0.4 + 0.2 * column);
  const { figures } = report;
  const isRepeated = clockChangeOf(report) !== null;
  const at = (atMs: number) => format.clock(atMs) + (isRepeated ? offsetAt(format, atMs) : "");
  const write = (cells: readonly (string | null)[], y: number, look: Look) => {
    cells.forEach((cell, column) => {
      if (column === 0) sheet.write(cell ?? "", { ...look, mostLines: 1 }, marginPt, y, wide * 0.5);
      else
        sheet.write(
          cell ?? words.unknown,
          { ...look, align: "right", mostLines: 1 },
          right(column - 1),
          y,
          wide * 0.2,
        );
    });
    return y + look.sizePt * 1.28;
  };
  const shown = (n: number | null) => (n === null ? null : format.count(n));
  let y = write([words.hour, "Sessions", "Prints", "Sheets"], top, small) + 2;
  const rows = hourRows(report.quarters, report.zone, mostRows);
  for (const row of rows) {
    sheet.rule(y, hairline, 0.5);
    const cells = [`${at(row.atMs)} to ${at(row.toAtMs)}`, format.count(row.sessions)];
    y = write([...cells, shown(row.prints), shown(row.sheets)], y + 3, body) + 2;
  }
  sheet.rule(y, "#000000", 0.75);
  const sum = [words.evening, shown(figures.sessions), shown(figures.prints), shown(figures.sheets)];
  return write(sum, y + 3, { ...body, face: "strong" });
}

/** " +02:00": tells the two hours of the same name apart. */
function offsetAt(format: VenueFormat, atMs: number): string {
  return ` ${format.stamp(atMs).slice(-6)}`;
}

function footTop(sheet: Sheet): number {
  return sheet.heightPt - marginPt - footPt;
}

function drawFoot(sheet: Sheet, report: ClientReport, { name }: Business, format: VenueFormat): void {
  const wide = sheet.widthPt - 2 * marginPt;
  const lines = [
    [`Times are those of ${format.zone(report.openAtMs)}.`, clockChangeOf(report)],
    [report.isInvented ? words.invented : null, words.footer],
    [report.corrected.length > 0 ? words.correctedFooter : null, name === "" ? null : `${name}.`],
  ].flat();
  const text = lines.filter((line) => line !== null).join(" ");
  const top = footTop(sheet);
  sheet.rule(top, hairline, 0.5);
  sheet.write(text, { ...small, sizePt: 8, mostLines: 3 }, marginPt, top + 5, wide);
}
