import type { BusinessSettings, Report } from "@boothward/shared-types/report";
import { reportRowOf, seasonTotals } from "../../dashboard/reports/seasonTotals.ts";

/** What a stub knows of evenings that are over. */
export type ReportsState = {
  /** The latest first. */
  reports: readonly Report[];
  business: BusinessSettings;
  links: readonly { linkId: string; madeBy: string; createdAtMs: number; path: string }[];
};

export const noReports: ReportsState = {
  reports: [],
  business: { name: "", logo: null, paper: "a4", pricePerRoll: null, currency: "EUR" },
  links: [],
};

/** What a client gets by the link of a report; undefined: another address. */
export function answerShared({ reports, business }: ReportsState, address: string): unknown {
  if (!address.startsWith("/api/shared-reports/")) return undefined;
  const id = address.split("/")[3];
  const found = reports.find(({ owner }) => owner.bookingId === id);
  if (found === undefined) return null;
  return { report: found.client, business: { name: business.name, hasLogo: business.logo !== null } };
}

/** The answers about reports to their owner; undefined: another address, null: no such report. */
export function answerReports(state: ReportsState, address: string): unknown {
  if (address === "/api/settings/business") return state.business;
  if (address.endsWith("/report-links")) return { links: state.links };
  if (address === "/api/reports") {
    const rows = state.reports.map(reportRowOf);
    return { rows, totals: seasonTotals(rows), waiting: 0 };
  }
  if (!address.startsWith("/api/reports/")) return undefined;
  const id = decodeURIComponent(address.split("/")[3] ?? "");
  return state.reports.find(({ owner }) => owner.bookingId === id) ?? null;
}
