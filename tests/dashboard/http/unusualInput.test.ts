import { fileRead, planView, report, type BookingInput, type SunStretch } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner } from "../../support/aDashboard.ts";
import { aPlan } from "../../support/aPlan.ts";
import { aPng } from "../../support/aPng.ts";
import { request } from "../../support/aRequest.ts";
import { hourMs, minuteMs } from "../../support/aStoredItem.ts";
import { aStanding, aTrailerBox } from "../../support/aTrailerBox.ts";
import { handTime } from "../../support/handTime.ts";

const made = z.object({ bookingId: z.string() });
const at = (iso: string) => Date.parse(iso);

/** A dashboard with a plain booth and a trailer that is open to all four sides, its printer low in its middle. */
async function aDesk(nowMs: number) {
  const time = handTime(nowMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api);
  const side = { bearingDeg: 0, widthM: 2.5, heightM: 2.1, sillM: 0.05, overhang: null };
  const openings = [
    { ...side, xM: 1.2, yM: 0, bearingDeg: 180 },
    { ...side, xM: 1.2, yM: 2.4 },
    { ...side, xM: 0, yM: 1.2, bearingDeg: 270 },
    { ...side, xM: 2.4, yM: 1.2, bearingDeg: 90 },
  ];
  const box = aTrailerBox({ lengthM: 2.4, openings, printer: { xM: 1.2, yM: 1.2, heightM: 0.1 } });
  const trailer = { name: "Sorrel", isTrailer: true, kitSheets: 400, limitC: 40, box };
  const { boothId: trailerId } = await api.post("/api/booths", trailer, z.object({ boothId: z.string() }));
  const headers = { cookie: api.cookie(), origin: dashboard.url };
  const ask = (method: string, path: string, body?: unknown) =>
    request(dashboard.url, path, { method, headers, ...(body === undefined ? {} : { body }) });
  const book = (over: Partial<BookingInput>) => ask("POST", "/api/bookings", aPlan(boothId, over));
  const read = async (text: string, isLook = false) => {
    const body = { format: "csv", text, zone: "Europe/Berlin", isLook };
    return fileRead.parse((await ask("POST", "/api/bookings/import", body)).body);
  };
  const download = async () => (await fetch(new URL("/api/bookings.csv", dashboard.url), { headers })).text();
  const errors = () => dashboard.lines.filter((line) => (JSON.parse(line) as { level: number }).level >= 50);
  return { ...{ time, dashboard, boothId, trailerId, ask, book, read, download, errors } };
}

describe("hours of a booking", () => {
  const berlin = { zone: "Europe/Berlin", openAtMs: at("2026-06-20T18:00Z") };
  const taken = { ...berlin, closeAtMs: at("2026-06-21T02:00Z") };

  it.each([
    ["of a night, and the next from its close on", at("2026-06-21T02:00Z"), 201],
    ["of a night, and the next morning a minute before its close", at("2026-06-21T01:59Z"), 409],
    ["of a night, and the same hours again", at("2026-06-20T18:00Z"), 409],
  ])("%s", async (_, openAtMs, status) => {
    const { book } = await aDesk(at("2026-06-01T12:00Z"));
    expect((await book(taken)).status).toBe(201);
    expect((await book({ ...taken, openAtMs, closeAtMs: openAtMs + hourMs })).status).toBe(status);
  });

  // Changes of the tz database: Berlin goes forward on 2026-03-29, back on 2026-10-25; Lord Howe by half an hour on 2026-04-05.
  it.each([
    ["Europe/Berlin", "2026-03-28T19:00Z", "2026-03-29T03:00Z", "2026-03-28 20:00,2026-03-29 05:00", 8],
    ["Europe/Berlin", "2026-03-28T19:00Z", "2026-03-29T02:00Z", "2026-03-28 20:00,2026-03-29 04:00", 7],
    ["Europe/Berlin", "2026-06-20T18:00Z", "2026-06-21T02:00Z", "2026-06-20 20:00,2026-06-21 04:00", 8],
    ["Europe/Berlin", "2026-10-24T18:00Z", "2026-10-25T03:00Z", "2026-10-24 20:00,2026-10-25 04:00", 9],
    [
      ...(["Europe/Berlin", "2026-10-25T00:30Z", "2026-10-25T01:30Z"] as const),
      ...(["2026-10-25 02:30 +02:00,2026-10-25 02:30 +01:00", 1] as const),
    ],
    [
      ...(["Australia/Lord_Howe", "2026-04-04T09:00Z", "2026-04-04T17:30Z"] as const),
      ...(["2026-04-04 20:00,2026-04-05 04:00", 8.5] as const),
    ],
  ])(
    "over a night and a change of the clocks in %s are true hours, from %s to %s",
    async (zone, opens, closes, wall, hours) => {
      const { time, book, ask, read, download, errors } = await aDesk(at(opens) - 24 * hourMs);
      const booked = await book({ zone, openAtMs: at(opens), closeAtMs: at(closes) });
      const { bookingId } = made.parse(booked.body);
      const table = await download();
      expect(table).toContain(`,${zone},${wall},`);
      expect((await read(table, true)).counts).toMatchObject({ same: 1, change: 0 });
      expect((await ask("GET", `/api/bookings/${bookingId}/plan`)).status).toBe(200);
      time.pass(at(closes) - time.clock().wallMs + 24 * hourMs);
      const { client } = report.parse((await ask("GET", `/api/reports/${bookingId}`)).body);
      expect(client.time.promisedMs).toBe(hours * hourMs);
      expect(errors()).toEqual([]);
    },
  );
});

describe("the sun of a plan at the ends of the world", () => {
  const sunOf = async (placed: Partial<BookingInput>) => {
    const openAtMs = placed.openAtMs ?? 0;
    const { dashboard, time, trailerId, book, ask, errors } = await aDesk(openAtMs - hourMs);
    const closeAtMs = openAtMs + 5 * hourMs;
    const standing = aStanding({ headingDeg: 0 });
    const booked = await book({ boothId: trailerId, zone: "UTC", standing, closeAtMs, ...placed });
    const { bookingId } = made.parse(booked.body);
    // It goes through the whole line too: checks, views and forecasts of an open evening.
    time.pass(2 * hourMs);
    await dashboard.tick();
    const path = `/api/bookings/${bookingId}`;
    expect((await ask("GET", `${path}/checks`)).status).toBe(200);
    expect((await ask("GET", `/api/booths/${trailerId}/evening`)).status).toBe(200);
    const { sun } = planView.parse((await ask("GET", `${path}/plan`)).body);
    expect(errors()).toEqual([]);
    return sun;
  };
  const minutes = (sun: readonly SunStretch[] | null) =>
    (sun ?? []).reduce((sum, { fromAtMs, toAtMs }) => sum + (toAtMs - fromAtMs) / minuteMs, 0);
  const june = at("2026-06-21T12:00Z");
  const december = at("2026-12-21T12:00Z");

  // Above the polar circles the sun does not set around midsummer nor rise around midwinter (the tilt of 23.4 degrees).
  it.each([
    ["78 north in June", 78, 15, june, 24 * 60],
    ["78 north in December", 78, 15, december, 0],
    ["78 south in December", -78, 15, december, 24 * 60],
    ["78 south in June", -78, 15, june, 0],
    ["the pole in June", 90, 0, june, 24 * 60],
    ["the other pole in June", -90, 180, june, 0],
  ])("%s reaches the printer all day or never", async (_, latitudeDeg, longitudeDeg, openAtMs, expected) => {
    const sun = await sunOf({ latitudeDeg, longitudeDeg, openAtMs });
    expect(sun?.length).toBe(expected === 0 ? 0 : 1);
    expect(minutes(sun)).toBeCloseTo(expected, 3);
  });

  // At the equinox the sun is up twelve hours at the equator, from six to six by the sun's own time.
  it.each([0, 180, -180])("at the equator, longitude %d, comes within twelve hours", async (longitudeDeg) => {
    const openAtMs = at("2026-03-20T12:00Z");
    const sun = await sunOf({ latitudeDeg: 0, longitudeDeg, openAtMs });
    const noonMs = at(longitudeDeg === 0 ? "2026-03-20T12:00Z" : "2026-03-20T00:00Z");
    expect(sun?.length).toBeGreaterThan(0);
    for (const { fromAtMs, toAtMs } of sun ?? []) {
      expect(toAtMs).toBeGreaterThan(fromAtMs);
      // 6 h 10 min before and after a noon that the equation of time moves by 7.5 min; of the day before or after too.
      for (const edgeMs of [fromAtMs, toAtMs]) {
        const fromNoonMs = Math.abs(((edgeMs - noonMs + 36 * hourMs) % (24 * hourMs)) - 12 * hourMs);
        expect(fromNoonMs).toBeLessThan(6 * hourMs + 20 * minuteMs);
      }
    }
    expect(minutes(sun)).toBeGreaterThan(6 * 60);
    expect(minutes(sun)).toBeLessThan(12.5 * 60);
  });
});

describe("a run sheet from elsewhere", () => {
  const now = at("2026-06-01T12:00Z");
  const evening = "2026-06-20 18:00;2026-06-21 01:00";
  const formula = '=HYPERLINK("http://example.com","Ivy")';
  const quoted = (text: string) => `"${text.replaceAll('"', '""')}"`;

  it.each([
    ["a byte-order mark, semicolons and quotes", 'Ivy; "and" Rowan\nof the mill', '"52,5"'],
    ["a formula for a name", formula, "52,5"],
    ["another", "@SUM(A1:A9)", "52.5"],
    ["a sign of another script that begins a formula", "\uFF1D1+1", ""],
    ["a name that is none of letters", "\u{1F3AA} \u202Eyvi\u202C \u0000", ""],
  ])("with %s is kept as written, and no spreadsheet runs what comes out", async (_, client, latitude) => {
    const { ask, read, download, errors } = await aDesk(now);
    const text =
      "\uFEFFbooth;client;kind;opens;closes;latitude;longitude;attendant;notes\r\n" +
      `juniper;${quoted(client)};party;${evening};${latitude};-13,4;+49 30 1234;${quoted(client)}\r\n`;
    expect(await read(text)).toMatchObject({ isKept: true, counts: { new: 1 } });
    const { bookings } = z
      .object({ bookings: z.array(z.record(z.string(), z.unknown())) })
      .parse((await ask("GET", "/api/bookings")).body);
    const latitudeDeg = latitude === "" ? null : 52.5;
    expect(bookings).toMatchObject([
      { client, notes: client, latitudeDeg, longitudeDeg: -13.4, attendant: "+49 30 1234" },
    ]);
    const table = await download();
    // OWASP, CSV Injection (from memory): what begins so is run; a number below nothing is none.
    expect(table).not.toMatch(/(^|,|\r\n)"?([=+@\uFF1D]|-(?!\d))/);
    expect((await read(table, true)).counts).toMatchObject({ same: 1, new: 0 });
    expect(errors()).toEqual([]);
  });

  it.each([
    ["an hour that the clocks pass over", "2026-03-29 02:30;2026-03-29 06:00", "opens"],
    ["a close before its opening", "2026-06-20 18:00;2026-06-20 01:00", "closes"],
    ["three days", "2026-06-20 18:00;2026-06-23 18:00", "closes"],
    ["a day that is none", "2026-06-31 18:00;2026-07-01 01:00", "opens"],
  ])("with %s is refused by line and column, whole", async (_, hours, column) => {
    const { read, download } = await aDesk(now);
    const before = await download();
    const rows = [evening, hours].map((each) => `Juniper;Ivy;party;${each}`);
    const found = await read(`booth;client;kind;opens;closes\n${rows.join("\n")}\n`);
    expect(found).toMatchObject({ isKept: false, problems: [{ line: 3, column }] });
    expect(await download()).toBe(before);
  });
});

describe("what is no logo, and what is no link", () => {
  const settings = { name: "Hobnail", paper: "a4", pricePerRoll: null, currency: "EUR" };
  const claims = aPng(1, 1);
  claims.writeUInt32BE(60_000, 16);
  claims.writeUInt32BE(60_000, 20);

  it.each([
    ["nothing", ""],
    ["no base64", "%%%"],
    ["the beginning of a PNG", aPng(40, 40).subarray(0, 60).toString("base64")],
    ["a PNG that claims 60,000 by 60,000", claims.toString("base64")],
    ["a PNG that unpacks to more than it says", aPng(1, 1, aPng(900, 900).subarray(41)).toString("base64")],
    ["the beginning of a JPEG", Buffer.from([0xff, 0xd8, 0xff, 0xc0]).toString("base64")],
    ["a page of a PDF", Buffer.from("%PDF-1.7\n").toString("base64")],
  ])("%s is refused as a logo, by its field, and the one before stays", async (_, logo) => {
    const { ask, errors } = await aDesk(at("2026-06-01T12:00Z"));
    const good = { ...settings, logo: aPng(40, 40).toString("base64") };
    expect((await ask("PUT", "/api/settings/business", good)).status).toBe(200);
    const { status, no } = await ask("PUT", "/api/settings/business", { ...settings, logo });
    expect([status, no?.field]).toEqual([400, "logo"]);
    expect((await ask("GET", "/api/settings/business")).body).toEqual(good);
    expect(errors()).toEqual([]);
  });

  it.each(["..%2F..%2Fapi%2Fme", "%00", "%E0%A4%A", "a.b.c", "%F0%9F%8E%AA.x", `${"9".repeat(8_000)}.x`])(
    "%s leads to no report",
    async (token) => {
      const { dashboard, errors } = await aDesk(at("2026-06-01T12:00Z"));
      for (const rest of ["", "/report.pdf", "/report.csv", "/logo"])
        expect((await request(dashboard.url, `/api/shared-reports/${token}${rest}`)).status).toBe(404);
      expect(errors()).toEqual([]);
    },
  );
});
