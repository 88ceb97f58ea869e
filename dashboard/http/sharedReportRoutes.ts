import { clientReport, sharedReport, type ClientReport } from "@boothward/shared-types";
import * as z from "zod";
import { no, type Answer } from "./answer.ts";
import { clientCsvAnswer, logoAnswer, pdfAnswer } from "./reportFiles.ts";
import { linkOfToken, reportToken } from "./reportToken.ts";
import { openRoute, ownerRoute, type Asked, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** The same for a link that never was, was revoked, or leads to an event that was taken out. */
const noSuchReport = no(404, "noSuchReport", "This link leads to no report. Ask the business for a new one.");
const noSuchBooking = no(404, "noSuchBooking", "There is no such booking; it may have been taken out.");

const keyBytes = 32;
const keySetting = z.object({ key: z.string().min(40) });

/** Links that let a client read one report without a sign-in, and what they lead to. */
export function sharedReportRoutes({ store, reports, makeId, randomBytes }: HttpSurroundings): Route[] {
  async function keyAt(atMs: number): Promise<Buffer> {
    const make = () => ({ key: randomBytes(keyBytes).toString("base64url") });
    const { key } = await store.settings.getOrMake("reportLinkKey", keySetting, make, atMs);
    return Buffer.from(key, "base64url");
  }

  async function pathOf(linkId: string, atMs: number): Promise<string> {
    return `/r/${reportToken(linkId, await keyAt(atMs))}`;
  }

  /** What the client may read, and nothing else: the answer is cut to the client's part. */
  async function sharedAt({ params, atMs }: Asked): Promise<ClientReport | null> {
    const linkId = linkOfToken(params["token"] ?? "", await keyAt(atMs));
    const link = linkId === null ? null : await store.reports.link(linkId);
    const found = link === null ? null : await reports.of(link.bookingId, atMs);
    return found === null || typeof found === "string" ? null : clientReport.parse(found.client);
  }

  const shared = (path: string, answer: (report: ClientReport) => Answer | Promise<Answer>) =>
    openRoute("get", `/api/shared-reports/:token${path}`, true, async (asked) => {
      const report = await sharedAt(asked);
      return report === null ? noSuchReport : answer(report);
    });

  return [
    ownerRoute("get", "/api/bookings/:bookingId/report-links", "shareReports", async ({ params, atMs }) => {
      const links = await store.reports.links(params["bookingId"] ?? "");
      const shown = links.map(async ({ linkId, madeBy, createdAtMs }) => ({
        ...{ linkId, madeBy, createdAtMs, path: await pathOf(linkId, atMs) },
      }));
      return { status: 200, body: { links: await Promise.all(shown) } };
    }),
    ownerRoute("post", "/api/bookings/:bookingId/report-links", "shareReports", async (asked) => {
      const { params, signed, atMs } = asked;
      const booking = await store.bookings.byId(params["bookingId"] ?? "");
      if (booking === null) return noSuchBooking;
      const linkId = makeId();
      const { bookingId } = booking;
      await store.reports.addLink({
        ...{ linkId, bookingId, madeBy: signed.name, createdAtMs: atMs, revokedAtMs: null },
      });
      return { status: 201, body: { linkId, path: await pathOf(linkId, atMs) } };
    }),
    ownerRoute("delete", "/api/report-links/:linkId", "shareReports", async ({ params, atMs }) => {
      await store.reports.revokeLink(params["linkId"] ?? "", atMs);
      return { status: 200, body: {} };
    }),
    shared("", async (report) => {
      const { name, logo } = await reports.business();
      return {
        status: 200,
        body: sharedReport.parse({ report, business: { name, hasLogo: logo !== null } }),
      };
    }),
    shared("/report.pdf", async (report) => pdfAnswer(report, await reports.business())),
    shared("/report.csv", clientCsvAnswer),
    shared("/logo", async () => logoAnswer(await reports.business())),
  ];
}
