import { describe, expect, it } from "vitest";
import * as z from "zod";
import { boothEvening, replayView } from "@boothward/shared-types";
import { openApi } from "../../../seeds/dashboardApi.ts";
import { addBooth, aDashboard, anOwner, pairAgent } from "../../support/aDashboard.ts";
import { aGreetedLink, sentSession, sentWarmth } from "../../support/aLinkClient.ts";
import { aPlan } from "../../support/aPlan.ts";
import { request } from "../../support/aRequest.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { seeBooths } from "../../support/seeBooths.ts";
import { until } from "../../support/until.ts";

const agentShape = z.object({ agentId: z.string(), hostName: z.string(), isLinked: z.boolean() });
const boothList = z.object({
  booths: z.array(z.object({ boothId: z.string(), name: z.string(), agent: agentShape.nullable() })),
});

async function aSignedIn(over: Parameters<typeof aDashboard>[0] = {}) {
  const dashboard = await aDashboard(over);
  const api = await anOwner(dashboard);
  const ask = (method: string, path: string, body: unknown) =>
    request(dashboard.url, path, { method, body, headers: { cookie: api.cookie(), origin: dashboard.url } });
  return { dashboard, api, ask };
}

describe("booths", () => {
  it("are listed with their agent and whether it is linked", async () => {
    const { dashboard, api } = await aSignedIn();
    const boothId = await addBooth(api);
    const listed = async () => (await api.get("/api/booths", boothList)).booths;
    expect(await listed()).toEqual([{ boothId, name: "Juniper", agent: null }]);
    const token = await pairAgent(api, boothId);
    expect(await listed()).toMatchObject([
      { agent: { agentId: "agent-1", hostName: "tablet", isLinked: false } },
    ]);
    await aGreetedLink(dashboard.url, token);
    expect(await listed()).toMatchObject([{ agent: { isLinked: true } }]);
  });

  it("are changed, and the page shows it at once", async () => {
    const { api, ask } = await aSignedIn();
    const boothId = await addBooth(api);
    const body = { name: "Juniper II", isTrailer: true, kitSheets: 700, limitC: 35.5 };
    expect((await ask("PUT", `/api/booths/${boothId}`, body)).status).toBe(200);
    expect(await seeBooths(api)).toMatchObject([{ boothId, ...body }]);
  });

  it.each([
    ["name", { name: " " }],
    ["isTrailer", { isTrailer: "yes" }],
    ["kitSheets", { kitSheets: 0 }],
    ["kitSheets", { kitSheets: 12.5 }],
    ["limitC", { limitC: 400 }],
    ["limitC", { limitC: null }],
  ])("with a wrong %s are refused, naming field and value", async (field, wrong) => {
    const { ask } = await aSignedIn();
    const body = { name: "Juniper", isTrailer: false, kitSheets: 400, limitC: 40, ...wrong };
    const { status, no } = await ask("POST", "/api/booths", body);
    expect([status, no?.field]).toEqual([400, field]);
    expect(no?.sentence).toContain(field);
    expect(no?.sentence).toContain(JSON.stringify(Object.values(wrong)[0]));
  });

  it("keep how they are built, and refuse what cannot be, by its field", async () => {
    const { api, ask } = await aSignedIn();
    const boothId = await addBooth(api);
    const opening = { xM: 2, yM: 1.8, bearingDeg: 90, widthM: 1.8, heightM: 1, sillM: 0.9, overhang: null };
    const printer = { xM: 1.2, yM: 1.6, heightM: 1 };
    const box = { widthM: 2, lengthM: 3.6, heightM: 2.1, openings: [opening], printer };
    const body = { name: "Juniper", isTrailer: true, kitSheets: 400, limitC: 40 };
    const put = (over: object) => ask("PUT", `/api/booths/${boothId}`, { ...body, box: { ...box, ...over } });
    expect((await put({})).status).toBe(200);
    expect(await seeBooths(api)).toMatchObject([{ box }]);
    const wide = await put({ openings: [{ ...opening, widthM: 5 }] });
    expect(wide).toMatchObject({ status: 400, no: { field: "box.openings[0].widthM" } });
    expect(wide.no?.sentence).toContain("5 is wider than the wall it is in");
    const turned = await put({ openings: [{ ...opening, bearingDeg: 725 }] });
    expect(turned).toMatchObject({ status: 400, no: { field: "box.openings[0].bearingDeg" } });
    const away = await put({ openings: [{ ...opening, bearingDeg: 270 }] });
    expect(away.no?.sentence).toContain("looks away from the printer");
    expect(await seeBooths(api)).toMatchObject([{ box }]);
  });

  it("have a name of their own", async () => {
    const { api, ask } = await aSignedIn();
    await addBooth(api, "Juniper");
    const sorrel = await addBooth(api, "Sorrel");
    const body = { name: "Juniper", isTrailer: false, kitSheets: 400, limitC: 40 };
    expect(await ask("POST", "/api/booths", body)).toMatchObject({ status: 409, no: { field: "name" } });
    expect(await ask("PUT", `/api/booths/${sorrel}`, body)).toMatchObject({ status: 409 });
    expect(await ask("PUT", "/api/booths/nowhere", body)).toMatchObject({ status: 404 });
  });
});

describe("pairing", () => {
  it("takes a code once, however it is typed, and says which mistake it is", async () => {
    const { dashboard, api } = await aSignedIn();
    const boothId = await addBooth(api);
    const path = `/api/booths/${boothId}/pairing-codes`;
    const { code } = await api.post(path, {}, z.object({ code: z.string() }));
    // No letter or digit that is taken for another.
    expect(code).toMatch(/^[A-HJKMNP-Z2-9]{3} [A-HJKMNP-Z2-9]{3}$/);
    const pair = (typed: string) =>
      request(dashboard.url, "/api/pair", {
        method: "POST",
        body: { code: typed, agentId: "agent-1", hostName: "tablet" },
      });
    expect((await pair("WRONG2")).no).toMatchObject({ error: "wrongCode", field: "code" });
    const paired = await pair(` ${code.toLowerCase().replace(" ", "-")} `);
    expect(paired).toMatchObject({ status: 200, body: { boothId, boothName: "Juniper" } });
    expect(await pair(code)).toMatchObject({ status: 410, no: { error: "usedCode" } });
    const warnings = dashboard.lines.filter((line) => line.includes("pairing refused"));
    expect(warnings).toHaveLength(2);
    expect(dashboard.lines.join("")).not.toContain(code.replace(" ", ""));
  });

  it("refuses a code after 15 minutes", async () => {
    const time = handTime();
    const { api } = await aSignedIn({ clock: time.clock });
    const boothId = await addBooth(api);
    const shape = z.object({ code: z.string(), expiresAtMs: z.number() });
    const { code, expiresAtMs } = await api.post(`/api/booths/${boothId}/pairing-codes`, {}, shape);
    expect(expiresAtMs - time.clock().wallMs).toBe(15 * minuteMs);
    time.pass(15 * minuteMs);
    const body = { code, agentId: "agent-1", hostName: "tablet" };
    await expect(openApi(api.origin).post("/api/pair", body, z.unknown())).rejects.toThrow("15 minutes");
  });

  it("refuses after too many wrong codes", async () => {
    const { dashboard } = await aSignedIn({ mostFailedTries: 2 });
    const body = { code: "WRONG2", agentId: "agent-1", hostName: "tablet" };
    const pair = () => request(dashboard.url, "/api/pair", { method: "POST", body });
    await pair();
    await pair();
    expect(await pair()).toMatchObject({ status: 429 });
  });

  it("refuses an agent that takes the dashboard's own name", async () => {
    const { dashboard, api } = await aSignedIn();
    const boothId = await addBooth(api);
    await expect(pairAgent(api, boothId, "dashboard")).rejects.toThrow("agentId");
    expect(dashboard.lines.join("")).not.toContain("agent paired");
  });

  it("says that there is no such agent to revoke", async () => {
    const { ask } = await aSignedIn();
    expect(await ask("POST", "/api/agents/nobody/revoke", {})).toMatchObject({ status: 404 });
  });
});

describe("bookings", () => {
  it("are kept, changed and taken out, and the page follows", async () => {
    const time = handTime(sixAtMs);
    const { api, ask } = await aSignedIn({ clock: time.clock });
    const boothId = await addBooth(api);
    const made = await ask("POST", "/api/bookings", aPlan(boothId));
    const { bookingId } = z.object({ bookingId: z.string() }).parse(made.body);
    expect(made.body).toEqual({ ...aPlan(boothId), bookingId });
    expect(await seeBooths(api)).toMatchObject([{ booking: { bookingId, client: "Edda and Rowan" } }]);

    const path = `/api/bookings/${bookingId}`;
    const changed = aPlan(boothId, { client: "Pell Brothers", closeAtMs: sixAtMs + 6 * hourMs });
    expect(await ask("PUT", path, changed)).toMatchObject({ status: 200 });
    expect(await seeBooths(api)).toMatchObject([
      { booking: { client: "Pell Brothers", closeAtMs: sixAtMs + 6 * hourMs } },
    ]);
    expect((await ask("GET", "/api/bookings", undefined)).body).toEqual({
      bookings: [{ ...changed, bookingId }],
    });

    expect(await ask("DELETE", path, undefined)).toMatchObject({ status: 200 });
    expect(await seeBooths(api)).toMatchObject([{ booking: null }]);
    expect(await ask("DELETE", path, undefined)).toMatchObject({ status: 404 });
    expect(await ask("PUT", path, changed)).toMatchObject({ status: 404 });
  });

  it.each([
    ["boothId", { boothId: "nowhere" }],
    ["client", { client: "" }],
    ["zone", { zone: "Mars/Olympus" }],
    ["latitudeDeg", { latitudeDeg: 91 }],
    ["openAtMs", { openAtMs: 12 }],
    ["closeAtMs", { closeAtMs: sixAtMs - 1 }],
    ["closeAtMs", { closeAtMs: sixAtMs + 49 * hourMs }],
    ["guests", { guests: -1 }],
    ["standing.headingDeg", { standing: { headingDeg: 725, horizon: [], expectedHighC: null } }],
    ["standing.expectedHighC", { standing: { headingDeg: null, horizon: [], expectedHighC: 86 } }],
    ["sheetsLoaded", { sheetsLoaded: 1.5 }],
    ["spareRolls", { spareRolls: "two" }],
  ])("with a wrong %s are refused, naming the field", async (field, wrong) => {
    const { api, ask } = await aSignedIn();
    const plan = { ...aPlan(await addBooth(api)), ...wrong };
    const { status, no } = await ask("POST", "/api/bookings", plan);
    expect([status, no?.field]).toEqual([400, field]);
    expect(no?.sentence).toContain(field);
    expect((await ask("GET", "/api/bookings", undefined)).body).toEqual({ bookings: [] });
  });

  it("of one booth may touch and not overlap", async () => {
    const { api, ask } = await aSignedIn();
    const boothId = await addBooth(api);
    const other = await addBooth(api, "Sorrel");
    await ask("POST", "/api/bookings", aPlan(boothId));
    const until11 = { openAtMs: sixAtMs + 5 * hourMs, closeAtMs: sixAtMs + 6 * hourMs };
    const overlapping = aPlan(boothId, { ...until11, openAtMs: until11.openAtMs - 1 });
    expect(await ask("POST", "/api/bookings", overlapping)).toMatchObject({
      status: 409,
      no: { field: "openAtMs" },
    });
    expect(await ask("POST", "/api/bookings", aPlan(other))).toMatchObject({ status: 201 });
    expect(await ask("POST", "/api/bookings", aPlan(boothId, until11))).toMatchObject({ status: 201 });
  });
});

describe("the evening of a booth", () => {
  it("has its temperatures by the minute, its quarters and its stops", async () => {
    const time = handTime(sixAtMs - minuteMs);
    const { dashboard, api, ask } = await aSignedIn({ clock: time.clock });
    const boothId = await addBooth(api);
    await api.post("/api/bookings", aPlan(boothId), z.unknown());
    const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
    const at = (minute: number) => ({ atMs: sixAtMs + minute * minuteMs });
    const state = {
      class: "fact",
      kind: "printerState",
      source: "ipp",
      monoMs: 0,
      queue: "dye",
      message: null,
    };
    time.pass(40 * minuteMs);
    link.batch("boot-1", 0, [
      sentSession(1, at(3)),
      sentWarmth(2, 24, at(5)),
      sentWarmth(3, 26, { atMs: at(5).atMs + 20_000 }),
      { ...state, seq: 4, state: "stopped", reasons: ["media-jam-error"], ...at(10) },
      { ...state, seq: 5, state: "idle", reasons: [], ...at(12) },
      sentSession(6, at(20)),
    ]);
    await link.next("ack");
    await until(async () => (await seeBooths(api))[0]?.counts.sessions === 2, "the sessions to be counted");
    const evening = boothEvening.parse((await ask("GET", `/api/booths/${boothId}/evening`, undefined)).body);
    expect(evening).toMatchObject({ boothId, fromAtMs: sixAtMs - hourMs, toAtMs: sixAtMs + 39 * minuteMs });
    expect(evening.inside).toEqual([{ ...at(5), insideC: 25 }]);
    expect(evening.stops).toEqual([{ fromAtMs: at(10).atMs, toAtMs: at(12).atMs, reason: "media-jam" }]);
    const busy = evening.quarters.filter(({ sessions }) => sessions > 0);
    expect(busy).toEqual([
      { ...at(0), sessions: 1, pitches: 0 },
      { ...at(15), sessions: 1, pitches: 0 },
    ]);
    expect(evening.quarters.at(-1)).toMatchObject(at(30));
    // 0 to 120 minutes longer in quarter-hours, as it goes and with one print a session.
    expect(evening.whatIfs).toHaveLength(18);
    const longer = evening.whatIfs
      .filter(({ isOnePrint }) => !isOnePrint)
      .map((each) => each.leftAtClose.p50);
    expect(longer).toEqual(longer.toSorted((a, b) => b - a));
    expect(await ask("GET", "/api/booths/nowhere/evening", undefined)).toMatchObject({ status: 404 });
  });
});

describe("a booking that is over", () => {
  it("is played through the forecast again, and one that goes on is not", async () => {
    const time = handTime(sixAtMs);
    const { dashboard, api, ask } = await aSignedIn({ clock: time.clock });
    const boothId = await addBooth(api);
    const made = await ask("POST", "/api/bookings", aPlan(boothId));
    const { bookingId } = z.object({ bookingId: z.string() }).parse(made.body);
    const path = `/api/bookings/${bookingId}/replay`;
    expect(await ask("GET", path, undefined)).toMatchObject({ status: 409, no: { error: "notOver" } });

    const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
    time.pass(5 * hourMs);
    const sessions = [1, 2, 3].map((seq) => sentSession(seq, { atMs: sixAtMs + seq * hourMs }));
    link.batch("boot-1", 0, sessions);
    await link.next("ack");
    const view = replayView.parse((await ask("GET", path, undefined)).body);
    expect(view).toMatchObject({ bookingId, boothId, boothName: "Juniper", client: "Edda and Rowan" });
    expect(view.asks).toHaveLength(20);
    expect(await ask("GET", "/api/bookings/nowhere/replay", undefined)).toMatchObject({ status: 404 });
    expect(await request(dashboard.url, path)).toMatchObject({ status: 401 });
  });
});
