import type {
  BusinessSettings,
  FigureWord,
  Report,
  ReportAlert,
  ReportCorrection,
  ReportFigures,
  ReportRow,
} from "@boothward/shared-types";
import { metInFigures } from "./alertsMet.ts";

/** What is added to a report when it is read: it changes without a fact of the evening. */
export type ReportMore = {
  /** Oldest first; of two of one figure the later holds. */
  readonly corrections: readonly ReportCorrection[];
  readonly alerts: readonly ReportAlert[];
  readonly prices: Pick<BusinessSettings, "pricePerRoll" | "currency"> | null;
};

/** The report with what people corrected, its alerts, and what the paper cost. */
export function withMore(report: Report, { corrections, alerts, prices }: ReportMore): Report {
  const owner = {
    ...report.owner,
    ...{ corrections: [...corrections], alerts: [...alerts], met: metInFigures(alerts) },
    cost: costOf(report, prices),
  };
  return { client: withCorrections(report.client, corrections), owner };
}

/** What the client reads, with the corrected figures in their places. */
export function withCorrections(
  client: Report["client"],
  corrections: readonly ReportCorrection[],
): Report["client"] {
  const latest = latestOf(corrections);
  const readyMs = readyMsOf(client.time.readyMs, latest);
  return {
    ...client,
    figures: figuresWith(client.figures, latest),
    time: { ...client.time, readyMs },
    corrected: [...latest.keys()],
  };
}

/** The same for a line of the history. */
export function withCorrectedRow(row: ReportRow, corrections: readonly ReportCorrection[]): ReportRow {
  const latest = latestOf(corrections);
  if (latest.size === 0) return row;
  const figures = figuresWith(row.figures, latest);
  return { ...row, figures, readyMs: readyMsOf(row.readyMs, latest), isCorrected: true };
}

type Latest = ReadonlyMap<FigureWord, number>;

function latestOf(corrections: readonly ReportCorrection[]): Latest {
  return new Map(corrections.map(({ field, is }) => [field, is]));
}

function figuresWith(counted: ReportFigures, latest: Latest): ReportFigures {
  const figures = { ...counted };
  for (const [field, is] of latest) if (field !== "readyMin") figures[field] = is;
  return figures;
}

function readyMsOf(countedMs: number, latest: Latest): number {
  const readyMin = latest.get("readyMin");
  return readyMin === undefined ? countedMs : readyMin * 60_000;
}

/** What a figure of the report stands at now. */
export function figureOf({ client }: Pick<Report, "client">, field: FigureWord): number | null {
  return field === "readyMin" ? Math.round(client.time.readyMs / 60_000) : client.figures[field];
}

/** A kit's price spread over its sheets. */
function costOf({ owner }: Report, prices: ReportMore["prices"]): Report["owner"]["cost"] {
  if (prices === null || prices.pricePerRoll === null) return null;
  const { pricePerRoll, currency } = prices;
  const { sheetsUsed, kitSheets } = owner.paper;
  return { amount: (sheetsUsed / kitSheets) * pricePerRoll, currency, pricePerRoll };
}
