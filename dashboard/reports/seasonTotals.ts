import type { Report, ReportRow, SeasonTotals } from "@boothward/shared-types";

/** One line of the history from a whole report. */
export function reportRowOf({ client, owner }: Report): ReportRow {
  const { boothName, place, eventKind, zone, openAtMs, closeAtMs, isInvented, figures, time } = client;
  const { change, test, spoilt } = owner.paper.wasted;
  return {
    ...{ bookingId: owner.bookingId, boothId: owner.boothId, boothName, client: client.client, place },
    ...{ eventKind, zone, openAtMs, closeAtMs, isInvented, figures },
    isCorrected: client.corrected.length > 0,
    ...{ promisedMs: time.promisedMs, readyMs: time.readyMs },
    ...{ stoppedMs: time.stoppedMs, unknownMs: time.unknownMs },
    sheetsUsed: owner.paper.sheetsUsed,
    wastedSheets: change + test + spoilt,
    kitSheets: owner.paper.kitSheets,
    rollsFitted: owner.paper.rolls.length,
    busiest: client.busiest,
  };
}

/** Sums over evenings of a month or a season, all booths. */
export function seasonTotals(rows: readonly ReportRow[]): SeasonTotals {
  const sum = (of: (row: ReportRow) => number | null) =>
    rows.reduce((total, row) => total + (of(row) ?? 0), 0);
  const unknown = (of: (row: ReportRow) => number | null) => rows.filter((row) => of(row) === null).length;
  const figures = {
    sessions: (row: ReportRow) => row.figures.sessions,
    prints: (row: ReportRow) => row.figures.prints,
    sheets: (row: ReportRow) => row.figures.sheets,
  };
  const dayOf = dayReader();
  return {
    events: new Set(rows.map((row) => JSON.stringify([row.client, row.place, dayOf(row)]))).size,
    evenings: rows.length,
    ...{ sessions: sum(figures.sessions), prints: sum(figures.prints), sheets: sum(figures.sheets) },
    unknown: {
      sessions: unknown(figures.sessions),
      prints: unknown(figures.prints),
      sheets: unknown(figures.sheets),
    },
    promisedMs: sum((row) => row.promisedMs),
    readyMs: sum((row) => row.readyMs),
    stoppedMs: sum((row) => row.stoppedMs),
    unknownMs: sum((row) => row.unknownMs),
    sheetsUsed: sum((row) => row.sheetsUsed),
    wastedSheets: sum((row) => row.wastedSheets),
    rollsFitted: sum((row) => row.rollsFitted),
    kitsUsed: sum((row) => row.sheetsUsed / row.kitSheets),
  };
}

/** The venue's day of an opening; what reads it is made once a zone. */
function dayReader(): (row: ReportRow) => string {
  const days = new Map<string, Intl.DateTimeFormat>();
  return ({ zone, openAtMs }) => {
    const day = days.get(zone) ?? new Intl.DateTimeFormat("en-CA", { timeZone: zone });
    days.set(zone, day);
    return day.format(openAtMs);
  };
}
