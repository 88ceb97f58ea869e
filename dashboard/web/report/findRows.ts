import type { ReportRow } from "@boothward/shared-types/report";
import { wallOf } from "../words/zonedTime.ts";

/** What of the history is shown. `month` null: all of it, else "2026-06" by the venue's calendar. */
export type Wanted = { readonly text: string; readonly month: string | null };

/** Rows in which each word that was written stands: in client, place, kind or booth, whatever its case. */
export function findRows(rows: readonly ReportRow[], { text, month }: Wanted): ReportRow[] {
  const words = plain(text)
    .split(/\s+/)
    .filter((word) => word !== "");
  return rows.filter((row) => {
    if (month !== null && monthOf(row) !== month) return false;
    const said = plain([row.client, row.place, row.eventKind, row.boothName].join(" "));
    return words.every((word) => said.includes(word));
  });
}

/** "2026-06", by the calendar at the venue. */
export function monthOf({ openAtMs, zone }: ReportRow): string {
  return wallOf(openAtMs, zone).date.slice(0, 7);
}

/** Months that have an evening, the latest first. */
export function monthsIn(rows: readonly ReportRow[]): string[] {
  return [...new Set(rows.map(monthOf))].sort().reverse();
}

/** Without marks on letters: who types "lukasz" finds Łukasz. */
function plain(text: string): string {
  return text
    .toLowerCase()
    .normalize("NFKD")
    .replace(/\p{M}/gu, "")
    .replaceAll("ł", "l")
    .replaceAll("ø", "o");
}
