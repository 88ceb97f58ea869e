import { stockView, type StockView } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { aDashboard } from "../../support/aDashboard.ts";
import { aPlan } from "../../support/aPlan.ts";
import { request } from "../../support/aRequest.ts";
import {
  aStockedDashboard,
  download,
  fullAt,
  look,
  made,
  moved,
  once,
  see,
} from "../../support/aStockedDashboard.ts";

const dayMs = 86_400_000;

describe("the stock over HTTP", () => {
  it("moves rolls in the name of who is signed in, once however often it is sent", async () => {
    const { api, boothId } = await aStockedDashboard();
    const body = { ...once(), fromPlace: "store", toPlace: `case:${boothId}`, rolls: 4, why: "loaded" };
    const first = await api.post("/api/stock/moves", body, moved);
    expect(await api.post("/api/stock/moves", body, moved)).toEqual(first);
    const view = await see(api);
    expect([fullAt(view, "store"), fullAt(view, `case:${boothId}`)]).toEqual([16, 4]);
    expect(view.moves[0]).toMatchObject({ moveId: first.moveId, by: "Ama", why: "loaded" });
  });

  it("takes a move back, and takes that back", async () => {
    const { api, boothId } = await aStockedDashboard();
    const body = { ...once(), fromPlace: "store", toPlace: `case:${boothId}`, rolls: 4, why: "loaded" };
    const { moveId } = await api.post("/api/stock/moves", body, moved);
    const back = await api.post(`/api/stock/moves/${moveId}/take-back`, once(), moved);
    expect(fullAt(await see(api), "store")).toBe(20);
    expect((await see(api)).moves.find((move) => move.moveId === moveId)?.isTakenBack).toBe(true);
    await api.post(`/api/stock/moves/${back.moveId}/take-back`, once(), moved);
    expect(fullAt(await see(api), "store")).toBe(16);
  });

  it("sets a place to what was counted and says the difference", async () => {
    const { api } = await aStockedDashboard();
    await api.post("/api/stock/counts", { ...once(), place: "store", fullRolls: 18, partials: [158] }, moved);
    const view = await see(api);
    expect(view.places[0]).toMatchObject({ place: "store", fullRolls: 18, partials: [158] });
    expect(view.moves[0]).toMatchObject({ why: "counted", found: -2 });
    expect(view.totals).toMatchObject({ bought: 20, unexplained: 2 });
  });

  it("brings an order into the store in parts, and learns how long it took", async () => {
    const { api, clock } = await aStockedDashboard();
    const { orderId } = await api.post("/api/stock/orders", { ...once(), rolls: 12 }, made);
    expect((await see(api)).advice).toMatchObject({ atHand: 20, onOrder: 12, lead: { orders: 0 } });
    clock.pass(6 * dayMs);
    await api.post(`/api/stock/orders/${orderId}/arrived`, { ...once(), rolls: 5 }, moved);
    expect((await see(api)).orders).toMatchObject([{ arrivedRolls: 5, arrivedAtMs: null }]);
    const tooMany = await api
      .post(`/api/stock/orders/${orderId}/arrived`, { ...once(), rolls: 8 }, moved)
      .catch((error: Error) => error.message);
    expect(tooMany).toContain("7 of this order are still to come");
    await api.post(`/api/stock/orders/${orderId}/arrived`, { ...once(), rolls: 7 }, moved);
    const view = await see(api);
    expect([fullAt(view, "store"), view.advice?.onOrder, view.advice?.lead.orders]).toEqual([32, 0, 1]);
    expect(view.advice?.lead.meanDays).toBeCloseTo((2 * 14 + 6) / 3, 6);
  });

  it("uses a roll for each that is put in at a booth, and gives it back when that is taken back", async () => {
    const { api, boothId } = await aStockedDashboard();
    await api.post(
      "/api/stock/moves",
      { ...once(), fromPlace: "store", toPlace: `case:${boothId}`, rolls: 4, why: "loaded" },
      moved,
    );
    const path = `/api/booths/${boothId}/facts`;
    const fact = z.object({ bootId: z.string(), seq: z.number() });
    const { bootId, seq } = await api.post(path, { kind: "rollFitted", sheets: 400 }, fact);
    const used = await see(api);
    expect([fullAt(used, `case:${boothId}`), used.totals.used]).toEqual([3, 1]);
    const [line] = used.moves.filter((move) => move.isDerived);
    expect(line).toMatchObject({ why: "used", by: "Ama", boothId });
    const refused = await api
      .post(`/api/stock/moves/${line?.moveId}/take-back`, once(), moved)
      .catch((error: Error) => error.message);
    expect(refused).toContain("take it back on the booth's page");
    await api.post(path, { kind: "takenBack", bootId, seq }, z.unknown());
    expect((await see(api)).totals.used).toBe(0);
  });

  it("says what coming events will use and by when to order", async () => {
    const { api, boothId } = await aStockedDashboard();
    const at = Date.UTC(2026, 4, 9, 17);
    for (let week = 0; week < 12; week += 1)
      await api.post(
        "/api/bookings",
        aPlan(boothId, {
          openAtMs: at + 7 * week * dayMs,
          closeAtMs: at + 7 * week * dayMs + dayMs / 4,
          guests: 400,
        }),
        z.unknown(),
      );
    const sure = (await see(api)).advice;
    if (sure === null) throw new Error("the rolls were counted");
    const view = await see(api);
    expect(view.events).toHaveLength(12);
    expect(view.events[0]?.mean).toBeGreaterThan(0.3);
    expect(view.events[0]?.mean).toBeLessThan(6);
    expect(sure.rolls).toBeGreaterThan(0);
    const less = await api.get(
      "/api/stock?service=0.95",
      z.looseObject({ advice: z.looseObject({ orderByAtMs: z.number() }) }),
    );
    expect(sure.orderByAtMs).toBeLessThanOrEqual(less.advice.orderByAtMs);
    const end = await api.get(
      `/api/stock/season-end?endAtMs=${at + 90 * dayMs}&shortCost=8&leftCost=4`,
      z.object({ rolls: z.number(), enoughShare: z.number(), meanUse: z.number(), highUse: z.number() }),
    );
    expect(end.enoughShare).toBeCloseTo(2 / 3, 9);
    expect(end.highUse).toBeGreaterThan(end.meanUse);
  });

  it.each([
    [{ fromPlace: "store", toPlace: "store", rolls: 1, why: "loaded" }, "toPlace"],
    [{ fromPlace: "store", toPlace: "case:nobody", rolls: 1, why: "loaded" }, "toPlace"],
    [{ fromPlace: "attic", toPlace: "store", rolls: 1, why: "loaded" }, "fromPlace"],
    [{ fromPlace: "store", toPlace: "lost", rolls: 0, why: "lost" }, "rolls"],
    [{ fromPlace: "store", toPlace: "lost", rolls: 1, partialSheets: 90, why: "lost" }, "rolls"],
    [{ fromPlace: "store", toPlace: "lost", rolls: 1, why: "lost", atMs: Date.UTC(2099, 0, 1) }, "atMs"],
  ])("refuses %j by its field", async (body, field) => {
    const { dashboard, api } = await aStockedDashboard();
    const headers = { cookie: api.cookie() };
    const { status, no } = await request(dashboard.url, "/api/stock/moves", {
      ...{ method: "POST", body: { ...once(), ...body }, headers },
    });
    expect([status, no?.field]).toEqual([400, field]);
  });

  it.each([
    ["GET", "/api/stock"],
    ["GET", "/api/stock/season-end"],
    ["POST", "/api/stock/moves"],
    ["POST", "/api/stock/moves/any/take-back"],
    ["POST", "/api/stock/counts"],
    ["POST", "/api/stock/orders"],
    ["POST", "/api/stock/orders/any/arrived"],
    ["GET", "/api/stock/moves.csv"],
    ["POST", "/api/stock/moves/import"],
    ["GET", "/api/bookings.csv"],
    ["GET", "/api/bookings.ics"],
    ["POST", "/api/bookings/import"],
  ])("%s %s is refused without a sign-in", async (method, path) => {
    const dashboard = await aDashboard();
    const { status } = await request(dashboard.url, path, { method });
    expect(status).toBe(401);
  });

  it("pages through what moved, 200 lines at a time", async () => {
    const { api } = await aStockedDashboard();
    const lines = Array.from({ length: 250 }, (_, at) => `2026-05-01 12:00,store,lost,1,lost,line ${at}`);
    const text = `when,from,to,rolls,why,note\n${lines.join("\n")}\n`;
    await look(api, "/api/stock/moves/import", { text, zone: "UTC", isLook: false });
    const first = await see(api);
    const next = await api.get(
      `/api/stock?before=${first.olderBefore}`,
      z.custom<StockView>((answer) => stockView.safeParse(answer).success),
    );
    expect([first.moves.length, next.moves.length, next.olderBefore]).toEqual([200, 51, null]);
    expect(new Set([...first.moves, ...next.moves].map(({ moveId }) => moveId)).size).toBe(251);
  });
});

describe("files of stock and run sheet", () => {
  it("come as files to keep, under a name", async () => {
    const { api } = await aStockedDashboard();
    const csv = await download(api, "/api/bookings.csv");
    expect(csv.headers.get("content-type")).toBe("text/csv; charset=utf-8");
    expect(csv.headers.get("content-disposition")).toMatch(/^attachment; filename="run-sheet.csv"/);
    const ics = await download(api, "/api/bookings.ics");
    expect(ics.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
    expect(ics.text).toContain("BEGIN:VCALENDAR\r\n");
  });

  it("put bookings into the run sheet: all of them, or none, and only after a look", async () => {
    const { api } = await aStockedDashboard();
    const head = "booth,client,kind,opens,closes\n";
    const good = "Juniper,Ivy Hall,party,2026-06-20 18:00,2026-06-20 23:00\n";
    const bad = "Juniper,Oak Hall,party,2026-06-20 20:00,2026-06-20 23:30\n";
    const ask = (text: string, isLook: boolean) =>
      look(api, "/api/bookings/import", { format: "csv", text: head + text, zone: "Europe/Berlin", isLook });
    const list = async () =>
      (await api.get("/api/bookings", z.object({ bookings: z.array(z.unknown()) }))).bookings.length;
    expect(await ask(good, true)).toMatchObject({ counts: { new: 1 }, isKept: false });
    expect(await list()).toBe(0);
    const refused = await ask(good + bad, false);
    expect(refused).toMatchObject({
      isKept: false,
      problemCount: 1,
      problems: [{ line: 3, column: "opens" }],
    });
    expect(await list()).toBe(0);
    expect(await ask(good, false)).toMatchObject({ isKept: true });
    expect(await list()).toBe(1);
    expect(await ask(good, false)).toMatchObject({ counts: { new: 0, same: 1 } });
    expect(await list()).toBe(1);
    const { text } = await download(api, "/api/bookings.ics");
    const again = { format: "ics", text, zone: "UTC", isLook: true };
    expect(await look(api, "/api/bookings/import", again)).toMatchObject({
      counts: { same: 1 },
      problemCount: 0,
    });
  });

  it("put lines into the stock, once however often the file is read, and the download is there already", async () => {
    const { api, boothId } = await aStockedDashboard();
    const text =
      "\uFEFFwhen;from;to;rolls;sheets of a part roll;why\r\n" +
      "2026-05-02 10:00;store;case Juniper;3;;loaded\r\n2026-05-02 10:00;store;case Juniper;3;;loaded\r\n" +
      "2026-05-03 10:00;store;lost;;158;lost\r\n";
    const ask = (isLook: boolean) =>
      look(api, "/api/stock/moves/import", { text, zone: "Europe/Berlin", isLook });
    expect(await ask(true)).toMatchObject({ counts: { new: 3 }, isKept: false });
    expect(await ask(false)).toMatchObject({ counts: { new: 3 }, isKept: true });
    expect(await ask(false)).toMatchObject({ counts: { new: 0, same: 3 } });
    expect(fullAt(await see(api), `case:${boothId}`)).toBe(6);
    const kept = await download(api, "/api/stock/moves.csv?zone=Europe/Berlin");
    const back = { text: kept.text, zone: "Europe/Berlin", isLook: true };
    expect(await look(api, "/api/stock/moves/import", back)).toMatchObject({ counts: { new: 0, same: 4 } });
  });

  it("say by line and column what cannot be taken, and keep nothing", async () => {
    const { api } = await aStockedDashboard();
    const text =
      "when,from,to,rolls,why\n2026-05-02 10:00,store,lost,1,lost\n" +
      "2026-05-02,store,lost,1,lost\n2026-05-02 10:00,attic,lost,1,lost\n2026-05-02 10:00,store,lost,many,lost\n" +
      "2026-05-02 10:00,store,lost,1,eaten\n";
    const read = await look(api, "/api/stock/moves/import", { text, zone: "UTC", isLook: false });
    expect(read.problems.map(({ line, column }) => [line, column])).toEqual([
      [3, "when"],
      [4, "from"],
      [5, "rolls"],
      [6, "why"],
    ]);
    expect(read.isKept).toBe(false);
    expect((await see(api)).moves).toHaveLength(1);
  });

  it("may be as long as 50,000 rows, where a form may not", async () => {
    const { dashboard, api } = await aStockedDashboard();
    const text = `when,from,to,rolls,why\n${"2026-05-02 10:00,store,lost,1,lost\n".repeat(50_000)}`;
    const read = await look(api, "/api/stock/moves/import", { text, zone: "UTC", isLook: false });
    expect(read).toMatchObject({ counts: { new: 50_000 }, isKept: true });
    const form = {
      ...once(),
      fromPlace: "store",
      toPlace: "lost",
      rolls: 1,
      why: "lost",
      note: "x".repeat(40_000),
    };
    const headers = { cookie: api.cookie() };
    const { status, no } = await request(dashboard.url, "/api/stock/moves", {
      method: "POST",
      body: form,
      headers,
    });
    expect([status, no?.sentence]).toEqual([413, "The request's body is larger than 32 kB."]);
  });
});
