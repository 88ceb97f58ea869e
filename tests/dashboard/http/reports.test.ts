import { parse } from "csv-parse/sync";
import { report as reportShape, reportHistory, sharedReport } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { fileName } from "../../../dashboard/http/fileName.ts";
import { linkOfToken, reportToken } from "../../../dashboard/http/reportToken.ts";
import { anOwner } from "../../support/aDashboard.ts";
import { aPng } from "../../support/aPng.ts";
import { aReportedEvening } from "../../support/aReportedEvening.ts";
import { request } from "../../support/aRequest.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";
import { readPdf } from "../../support/readPdf.ts";
import { theDayAfter } from "../../support/theDayAfter.ts";

const evening = aReportedEvening(4, { openAtMs: sixAtMs });
const made = z.object({ linkId: z.string(), path: z.string() });

/** A dashboard the day after an evening, with its owner. */
async function withReport() {
  const dashboard = await theDayAfter(evening);
  const api = await anOwner(dashboard);
  const headers = { cookie: api.cookie(), origin: dashboard.url };
  const ask = (method: string, path: string, body?: unknown) =>
    request(dashboard.url, path, { method, headers, ...(body === undefined ? {} : { body }) });
  const get = async <T>(path: string, shape: { parse(input: unknown): T }): Promise<T> => {
    const { status, body, no } = await ask("GET", path);
    if (status !== 200) throw new Error(no?.sentence ?? `${status}`);
    return shape.parse(body);
  };
  const open = (path: string) => request(dashboard.url, path);
  const file = async (path: string, isSigned = false) => {
    const response = await fetch(new URL(path, dashboard.url), isSigned ? { headers } : {});
    const bytes = Buffer.from(await response.arrayBuffer());
    return { status: response.status, header: (name: string) => response.headers.get(name), bytes };
  };
  const share = async () => {
    const { path, linkId } = await api.post("/api/bookings/booking-1/report-links", {}, made);
    return { linkId, token: path.replace("/r/", ""), path };
  };
  return { dashboard, ask, get, open, file, share };
}

const linkOf = (token: string, rest = "") => `/api/shared-reports/${token}${rest}`;

/** Every name of a field in a JSON value. */
function namesIn(value: unknown): string[] {
  if (Array.isArray(value)) return value.flatMap(namesIn);
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, inside]) => [name, ...namesIn(inside)]);
}

describe("a report over HTTP", () => {
  it("is the owner's, with every figure; without a sign-in there is none", async () => {
    const { get, open } = await withReport();
    const { client, owner } = await get("/api/reports/booking-1", reportShape);
    expect(client.figures.sessions).toBe(evening.truth.sessions.length);
    expect(owner.paper.sheetsUsed).toBeGreaterThan(evening.truth.sheets);
    for (const path of ["", "/booking-1", "/booking-1/report.pdf", "/booking-1/report.csv"])
      expect((await open(`/api/reports${path}`)).status).toBe(401);
    expect((await open("/api/settings/business")).status).toBe(401);
    await expect(get("/api/reports/nobody", reportShape)).rejects.toThrow("no such booking");
  });

  it("stands in the history of the time it opened in", async () => {
    const { get, file, open } = await withReport();
    const found = await get(`/api/reports?fromAtMs=0&toAtMs=${sixAtMs + 1}`, reportHistory);
    expect(found.rows.map(({ bookingId }) => bookingId)).toEqual(["booking-1"]);
    const none = await get(`/api/reports?fromAtMs=0&toAtMs=${sixAtMs}`, reportHistory);
    expect(none.rows).toEqual([]);
    await expect(get("/api/reports?fromAtMs=0", reportHistory)).rejects.toThrow("toAtMs");
    const csv = await file(`/api/reports.csv?fromAtMs=0&toAtMs=${sixAtMs + 1}`, true);
    expect(csv.bytes.toString()).toContain("Edda and Rowan");
    expect((await open("/api/reports.csv?fromAtMs=0&toAtMs=1")).status).toBe(401);
  });

  it("is a PDF and two CSV files to be saved, of which no browser guesses the kind", async () => {
    const { file } = await withReport();
    const pdf = await file("/api/reports/booking-1/report.pdf", true);
    expect(pdf.header("content-type")).toBe("application/pdf");
    expect(pdf.header("x-content-type-options")).toBe("nosniff");
    expect(pdf.header("content-disposition")).toContain(`filename="2026-06-20 Edda and Rowan.pdf"`);
    expect((await readPdf(pdf.bytes)).text).toContain(`${evening.truth.sessions.length} times`);
    const csv = await file("/api/reports/booking-1/report.csv", true);
    expect(csv.header("content-type")).toMatch(/^text\/csv/);
    const records = parse(csv.bytes, { bom: true });
    expect(records).toContainEqual(["shown", "sessions", `${evening.truth.sessions.length}`, "", "", ""]);
    expect((await file("/api/reports/booking-1/client.csv", true)).bytes.toString()).not.toContain("paper");
  });

  it("runs nothing in a spreadsheet that a client's name holds", async () => {
    const { ask, file } = await withReport();
    const formula = '=HYPERLINK("http://example.invalid","see")';
    expect(
      (await ask("PUT", "/api/bookings/booking-1", { ...evening.booking, client: formula })).status,
    ).toBe(200);
    const csv = await file("/api/reports/booking-1/report.csv", true);
    const records = parse(csv.bytes, { bom: true });
    expect(records.find(([, name]) => name === "client")?.[2]).toBe(`'${formula}`);
    // A figure below nothing stays a figure.
    const cells = records.flat();
    expect(cells.filter((cell) => /^'-?\d/.test(cell))).toEqual([]);
  });

  it("shows what was put right, keeps what was counted, and marks it for the client", async () => {
    const { get, ask, open, share } = await withReport();
    const counted = evening.truth.sessions.length;
    const path = "/api/reports/booking-1/corrections";
    const body = {
      field: "sessions",
      becomes: counted + 3,
      why: "three groups before the folder was watched",
    };
    expect((await ask("POST", path, body)).status).toBe(201);
    await ask("POST", path, { ...body, becomes: counted + 4, why: "one more" });
    const { client, owner } = await get("/api/reports/booking-1", reportShape);
    expect(client.figures.sessions).toBe(counted + 4);
    expect(owner.counted.sessions).toBe(counted);
    expect(owner.corrections).toMatchObject([
      { field: "sessions", was: counted, is: counted + 3, by: "Ama" },
      { was: counted + 3, is: counted + 4, why: "one more" },
    ]);
    const { token } = await share();
    const { report } = sharedReport.parse((await open(linkOf(token))).body);
    expect(report.corrected).toEqual(["sessions"]);
    expect(report.figures.sessions).toBe(counted + 4);
    const { rows } = await get(`/api/reports?fromAtMs=0&toAtMs=${sixAtMs + 1}`, reportHistory);
    expect(rows[0]).toMatchObject({ isCorrected: true, figures: { sessions: counted + 4 } });
    const refused = async (over: object) => (await ask("POST", path, { ...body, ...over })).no?.field;
    expect(await refused({ becomes: counted + 4 })).toBe("becomes");
    expect(await refused({ becomes: -1 })).toBe("becomes");
    expect(await refused({ why: " " })).toBe("why");
    expect(await refused({ field: "cost" })).toBe("field");
    expect(await refused({ field: "readyMin", becomes: 2_000 })).toBe("becomes");
  });
});

describe("a client's link", () => {
  it("opens the client's part without a sign-in, and not one field of the owner's", async () => {
    const { open, share } = await withReport();
    const { token } = await share();
    const { status, body } = await open(linkOf(token));
    expect(status).toBe(200);
    const shared = sharedReport.parse(body);
    expect(shared.report.figures.sessions).toBe(evening.truth.sessions.length);
    const owners = ["owner", "bookingId", "boothId", "guests", "counted", "corrections", "outside", "counts"];
    const more = ["paper", "waits", "inside", "gaps", "alerts", "cost", "pricePerRoll", "by", "linkId"];
    const names = new Set(namesIn(body));
    for (const name of [...owners, ...more]) expect(names).not.toContain(name);
    expect(JSON.stringify(body)).not.toContain("Ama");
  });

  it("gives the sheet and the quarter-hours as files", async () => {
    const { file, share } = await withReport();
    const { token } = await share();
    const pdf = await file(linkOf(token, "/report.pdf"));
    expect([pdf.status, (await readPdf(pdf.bytes)).pages]).toEqual([200, 1]);
    const csv = await file(linkOf(token, "/report.csv"));
    const records = parse(csv.bytes, { bom: true, record_delimiter: "\r\n" });
    const quarters = records.filter(([what]) => what === "quarter-hour");
    const sum = quarters.reduce((total, record) => total + Number(record[3]), 0);
    expect(sum).toBe(evening.truth.sessions.length);
  });

  it("that was guessed, changed or ended leads nowhere, in the same words", async () => {
    const { ask, open, share } = await withReport();
    const { token, linkId } = await share();
    const other = await share();
    const signature = token.slice(token.lastIndexOf(".") + 1);
    const wrong = [
      ...[linkId, `${linkId}.`, `${linkId}.${signature.slice(0, -2)}AA`, `.${signature}`],
      ...[`${other.linkId}.${signature}`, "x".repeat(300)],
    ];
    const answers = await Promise.all(wrong.map((each) => open(linkOf(each))));
    expect(answers.map(({ status }) => status)).toEqual(wrong.map(() => 404));
    expect((await ask("DELETE", `/api/report-links/${linkId}`)).status).toBe(200);
    const ended = await open(linkOf(token));
    expect([ended.status, ended.body]).toEqual([404, answers[0]?.body]);
    expect((await open(linkOf(token, "/report.pdf"))).status).toBe(404);
    expect((await open(linkOf(other.token))).status).toBe(200);
    const left = (await ask("GET", "/api/bookings/booking-1/report-links")).body;
    expect(left).toMatchObject({ links: [{ linkId: other.linkId, path: other.path }] });
  });

  it("that is passed on shows whoever has it the same, signs nobody in, and tells no other site of itself", async () => {
    const { open, file, share } = await withReport();
    const { token } = await share();
    const { header } = await file(linkOf(token));
    expect(header("set-cookie")).toBeNull();
    expect(header("cache-control")).toBe("no-store");
    expect(header("referrer-policy")).toBe("no-referrer");
    for (const path of ["/api/reports", "/api/reports/booking-1", "/api/booths"])
      expect((await open(path)).status).toBe(401);
  });

  it("cannot be guessed at for long", async () => {
    const { open, share } = await withReport();
    const { token } = await share();
    const statuses: number[] = [];
    for (let tries = 0; tries < 12; tries++) statuses.push((await open(linkOf(`${tries}.guess`))).status);
    expect(statuses.slice(0, 10)).toEqual(Array.from({ length: 10 }, () => 404));
    expect(statuses.slice(10)).toEqual([429, 429]);
    expect((await open(linkOf(token))).status).toBe(429);
  });

  it("ends with its booking", async () => {
    const { ask, open, share } = await withReport();
    const { token } = await share();
    expect((await ask("DELETE", "/api/bookings/booking-1")).status).toBe(200);
    expect((await open(linkOf(token))).status).toBe(404);
  });

  it("holds over a restart", async () => {
    const { dashboard, share } = await withReport();
    const { token } = await share();
    const again = await dashboard.reopen();
    expect((await request(again.url, linkOf(token))).status).toBe(200);
  });

  it("is made for a booking that is there", async () => {
    const { ask, share } = await withReport();
    expect((await ask("POST", "/api/bookings/nobody/report-links", {})).status).toBe(404);
    const { token } = await share();
    expect(token).toMatch(/^[0-9a-f-]{36}\.[A-Za-z0-9_-]{43}$/);
  });
});

describe("a report's token", () => {
  const key = Buffer.alloc(32, 7);

  it("is good for the key it was made with, and for no other", () => {
    const token = reportToken("link-1", key);
    expect(linkOfToken(token, key)).toBe("link-1");
    expect(linkOfToken(token, Buffer.alloc(32, 8))).toBeNull();
    expect(linkOfToken(token.replace("link-1", "link-2"), key)).toBeNull();
    expect(linkOfToken("", key)).toBeNull();
  });
});

describe("the business's own settings", () => {
  const settings = {
    name: "Hobnail and Daughters",
    logo: null,
    paper: "a4",
    pricePerRoll: 70,
    currency: "EUR",
  };
  const path = "/api/settings/business";

  it("are empty at first, and then on every report", async () => {
    const { get, ask, file, share, open } = await withReport();
    expect((await ask("GET", path)).body).toMatchObject({ name: "", logo: null, pricePerRoll: null });
    const logo = aPng(120, 40).toString("base64");
    expect((await ask("PUT", path, { ...settings, logo })).status).toBe(200);
    const { owner } = await get("/api/reports/booking-1", reportShape);
    expect(owner.cost?.amount).toBeCloseTo((owner.paper.sheetsUsed / 400) * 70, 10);
    const { token } = await share();
    expect((await open(linkOf(token))).body).toMatchObject({
      business: { name: settings.name, hasLogo: true },
    });
    const shown = await file(linkOf(token, "/logo"));
    expect([shown.header("content-type"), shown.header("content-disposition")]).toEqual(["image/png", null]);
    expect(shown.bytes.equals(aPng(120, 40))).toBe(true);
    expect((await readPdf((await file(linkOf(token, "/report.pdf"))).bytes)).text).toContain(settings.name);
  });

  it("refuse a logo that is no picture, is too large, or cannot be printed, and a currency that is none", async () => {
    const { ask } = await withReport();
    const refused = async (over: object) => {
      const { status, no } = await ask("PUT", path, { ...settings, ...over });
      return [status, no?.field, no?.sentence];
    };
    const text = Buffer.from("<svg/>").toString("base64");
    expect(await refused({ logo: text })).toEqual([
      400,
      "logo",
      "logo: it is neither a PNG nor a JPEG picture.",
    ]);
    const large = Buffer.alloc(513 * 1024, 0x41).toString("base64");
    expect((await refused({ logo: large }))[2]).toBe("logo: it is larger than 512 kB; make it smaller.");
    expect(await refused({ logo: "A".repeat(2_000_000) })).toEqual([
      ...[413, null, "The request's body is larger than 704 kB."],
    ]);
    expect((await refused({ currency: "euros" }))[1]).toBe("currency");
    expect((await refused({ paper: "a5" }))[1]).toBe("paper");
    expect((await ask("PUT", "/api/bookings/booking-1", { client: "A".repeat(40_000) })).status).toBe(413);
  });
});

describe("the name of a file", () => {
  it("is whole for new browsers, plain for old ones, and leads into no folder", () => {
    // RFC 6266 appendix D, RFC 8187 section 3.2.
    expect(fileName("Žofia & Łukasz.pdf")).toBe(
      `attachment; filename="Zofia & ukasz.pdf"; filename*=UTF-8''%C5%BDofia%20%26%20%C5%81ukasz.pdf`,
    );
    expect(fileName('../a"b\r\n.pdf')).toBe(
      `attachment; filename=".. a b .pdf"; filename*=UTF-8''..%20a%20b%20.pdf`,
    );
    expect(fileName("Ελένη")).toBe(
      `attachment; filename="report"; filename*=UTF-8''%CE%95%CE%BB%CE%AD%CE%BD%CE%B7`,
    );
    expect(fileName("O'Neil (2)")).toContain("O%27Neil%20%282%29");
  });
});
