import type { ClientReport, Report, ReportRow } from "@boothward/shared-types";
import { venueFormat } from "./venueFormat.ts";

/** One record of a CSV file; null is an empty field. */
export type CsvRow = readonly (string | number | null)[];

const quarterMs = 15 * 60_000;

/**
 * What a client gets to calculate with: a record for each quarter-hour, then the totals. Every record has the same
 * fields (RFC 4180 section 2, rule 4), times are local with their offset.
 */
export function clientCsvRows(report: ClientReport): CsvRow[] {
  const { stamp } = venueFormat(report.zone, "en-GB");
  const { figures, time } = report;
  const total = (what: string, n: number | null): CsvRow => [what, null, null, n, null, null];
  return [
    ["what", "from", "to", "sessions", "prints", "sheets"],
    ...report.quarters.map(({ atMs, sessions, prints, sheets }): CsvRow => {
      return ["quarter-hour", stamp(atMs), stamp(atMs + quarterMs), sessions, prints, sheets];
    }),
    [
      ...["evening", stamp(report.openAtMs), stamp(report.closeAtMs)],
      ...[figures.sessions, figures.prints, figures.sheets],
    ],
    total("reprints, sheets", figures.reprints),
    total("sessions without a print", figures.digitalOnly),
    total("minutes ready", minutes(time.readyMs)),
    total("minutes promised", minutes(time.promisedMs)),
    total("minutes not known", minutes(time.unknownMs)),
    ...report.pauses.map(({ fromAtMs, toAtMs, why }): CsvRow => {
      return [`pause: ${why}`, stamp(fromAtMs), stamp(toAtMs), null, null, null];
    }),
  ];
}

/** Everything of a report for the owner: part, name, value, and the times it is about. */
export function ownerCsvRows({ client, owner }: Report): CsvRow[] {
  const { stamp } = venueFormat(client.zone, "en-GB");
  const row = (
    part: string,
    name: string,
    value: string | number | null,
    fromAtMs: number | null = null,
    toAtMs: number | null = null,
    note: string | null = null,
  ): CsvRow => [part, name, value, fromAtMs && stamp(fromAtMs), toAtMs && stamp(toAtMs), note];
  const { time, figures } = client;
  const { paper, counts, waits, inside, cost } = owner;
  return [
    ["part", "name", "value", "from", "to", "note"],
    row("event", "client", client.client, client.openAtMs, client.closeAtMs, client.zone),
    row("event", "place", client.place),
    row("event", "kind", client.eventKind),
    row("event", "booth", client.boothName),
    row("event", "guests", owner.guests),
    ...Object.entries(figures).map(([name, n]) => row("shown", name, n)),
    ...Object.entries(owner.counted).map(([name, n]) => row("counted", name, n)),
    ...owner.corrections.map(({ field, is, was, why, by, atMs }) =>
      row("corrected", field, is, atMs, null, `was ${was ?? "not known"}; ${why}; ${by}`),
    ),
    ...Object.entries(time).map(([name, lengthMs]) =>
      row("minutes", name.replace(/Ms$/, ""), minutes(lengthMs)),
    ),
    ...client.pauses.map(({ why, reason, fromAtMs, toAtMs }) =>
      row("pause", why, minutes(toAtMs - fromAtMs), fromAtMs, toAtMs, reason),
    ),
    row("outside the hours", "sessions", owner.outside.sessions),
    row("outside the hours", "sheets", owner.outside.sheets),
    ...counts.sessions.map(({ by, count }) =>
      row("sessions by source", by, count, null, null, by === counts.sessionsBy ? "counts" : null),
    ),
    ...counts.sheets.map(({ by, count }) =>
      row("sheets by source", by, count, null, null, by === counts.sheetsBy ? "counts" : null),
    ),
    row("paper", "sheets used", paper.sheetsUsed),
    ...Object.entries(paper.wasted).map(([cause, n]) => row("paper", `wasted: ${cause}`, n)),
    ...paper.rolls.map(({ atMs, sheets, by, basis }) => row("roll", basis, sheets, atMs, null, by)),
    ...(cost === null ? [] : [row("cost", cost.currency, Number(cost.amount.toFixed(2)))]),
    ...(waits === null ? [] : [row("wait for a print, seconds", "median", seconds(waits.medianMs))]),
    ...(waits === null
      ? []
      : [row("wait for a print, seconds", "longest", seconds(waits.longestMs), waits.longestAtMs)]),
    ...(inside === null
      ? []
      : [
          row("temperature, C", "lowest", rounded(inside.minC)),
          row("temperature, C", "mean", rounded(inside.meanC)),
          row("temperature, C", "highest", rounded(inside.maxC)),
          row(
            "temperature, C",
            "minutes above the limit",
            inside.aboveLimitMin,
            null,
            null,
            `${inside.limitC}`,
          ),
        ]),
    ...owner.gaps.map(({ fromAtMs, toAtMs, sessionsEstimate }) =>
      row("not known", "sessions, estimated", sessionsEstimate, fromAtMs, toAtMs, "in no other figure"),
    ),
    ...owner.alerts.flatMap(({ matter, severity, raisedAtMs, toldAtMs, takenAtMs, takenBy, clearedAtMs }) => [
      row("alert", matter, severity, raisedAtMs, clearedAtMs),
      ...(toldAtMs === null
        ? []
        : [row("alert told after, seconds", matter, seconds(toldAtMs - raisedAtMs), raisedAtMs, toldAtMs)]),
      ...(takenAtMs === null
        ? []
        : [
            row(
              ...(["alert taken after, seconds", matter, seconds(takenAtMs - raisedAtMs)] as const),
              ...([raisedAtMs, takenAtMs, takenBy] as const),
            ),
          ]),
    ]),
  ];
}

/** The history as a record for each evening, to add up a month or a season in one's own way. */
export function seasonCsvRows(rows: readonly ReportRow[]): CsvRow[] {
  return [
    [
      ...["open", "close", "client", "place", "kind", "booth", "sessions", "prints", "sheets for guests"],
      ...["reprints, sheets", "sessions without a print", "sheets used", "of them wasted", "rolls fitted"],
      ...["minutes promised", "minutes ready", "minutes stopped", "minutes not known", "corrected"],
    ],
    ...rows.map((row): CsvRow => {
      const { stamp } = venueFormat(row.zone, "en-GB");
      const { sessions, prints, sheets, reprints, digitalOnly } = row.figures;
      return [
        ...[stamp(row.openAtMs), stamp(row.closeAtMs), row.client, row.place, row.eventKind, row.boothName],
        ...[sessions, prints, sheets, reprints, digitalOnly],
        ...[row.sheetsUsed, row.wastedSheets, row.rollsFitted],
        ...[row.promisedMs, row.readyMs, row.stoppedMs, row.unknownMs].map(minutes),
        row.isCorrected ? "corrected" : null,
      ];
    }),
  ];
}

function minutes(lengthMs: number): number {
  return Math.round(lengthMs / 60_000);
}

function seconds(lengthMs: number): number {
  return Math.round(lengthMs / 1000);
}

function rounded(celsius: number): number {
  return Math.round(celsius * 10) / 10;
}
