import { checksView, planView, type CheckName, type StoredItem } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { secretHash } from "../../../dashboard/store/secretHash.ts";
import { addBooth, aDashboard, anOwner, owner, pairAgent } from "../../support/aDashboard.ts";
import { aGreetedLink } from "../../support/aLinkClient.ts";
import { aPlan } from "../../support/aPlan.ts";
import { aPowerPlan } from "../../support/aPowerPlan.ts";
import { request } from "../../support/aRequest.ts";
import { aStoredItem, hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { changeStore, readStore } from "../../support/readStore.ts";
import { until } from "../../support/until.ts";

const made = z.object({ bookingId: z.string() });
const bookingsShape = z.object({
  bookings: z.array(
    z.object({
      ...{ bookingId: z.string(), boothId: z.string(), openAtMs: z.number(), closeAtMs: z.number() },
      ...{ eventId: z.string().nullable(), sheetsLoaded: z.number().nullable() },
      breaks: z.array(z.object({ fromAtMs: z.number(), toAtMs: z.number() })),
    }),
  ),
});

/** Two booths at 17:00; one of them opens at 18:00 at an event for a wedding. */
async function aBoothAtFive() {
  const time = handTime(sixAtMs - hourMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const [boothId, other] = [await addBooth(api), await addBooth(api, "Sorrel")];
  const plan = aPlan(boothId, { power: aPowerPlan(), attendant: "Ben Tansy" });
  const { bookingId } = await api.post("/api/bookings", plan, made);
  const asOwner = { cookie: api.cookie(), origin: dashboard.url };
  const ask = (method: string, path: string, body?: unknown, headers = asOwner) =>
    request(dashboard.url, path, { method, headers, ...(body === undefined ? {} : { body }) });
  const say = (body: unknown, headers = asOwner) =>
    ask("POST", `/api/booths/${boothId}/facts`, body, headers);
  const planOf = async () => planView.parse((await ask("GET", `/api/bookings/${bookingId}/plan`)).body);
  const checks = async () => checksView.parse((await ask("GET", `/api/bookings/${bookingId}/checks`)).body);
  const check = async (name: CheckName) => (await checks()).checks.find((each) => each.check === name);
  /** A cookie of somebody who came in by a pass for these bookings. */
  const attendant = (bookingIds: string[]) => {
    const ends = sixAtMs + 12 * hourMs;
    const values = `'p-${bookingIds.length}', 'x-${bookingIds.length}', 'Ben Tansy', '${JSON.stringify(bookingIds)}', 'Ama', 0, ${ends}, null`;
    changeStore(
      dashboard.dataDir,
      `insert into pass (passId, tokenHash, name, bookingIds, madeBy, createdAtMs, endsAtMs, revokedAtMs) values (${values});
       insert into passSignIn (tokenHash, passId, device, createdAtMs, expiresAtMs)
       values ('${secretHash(`token${bookingIds.length}`)}', 'p-${bookingIds.length}', 'a phone', 0, ${ends})`,
    );
    return { cookie: `boothwardSignIn=token${bookingIds.length}`, origin: dashboard.url };
  };
  return {
    ...{ time, dashboard, api, boothId, other, bookingId, ask, say, planOf, checks, check, attendant },
  };
}

/** An item as an agent sends it: where and when it came in is the dashboard's to say. */
const withoutStamps = (item: StoredItem) =>
  Object.fromEntries(
    Object.entries(item).filter(([name]) => !["boothId", "bootId", "receivedAtMs"].includes(name)),
  );

describe("the plan of a booking", () => {
  it("is its rolls, its power and what goes into the van", async () => {
    const { planOf } = await aBoothAtFive();
    const plan = await planOf();
    expect(plan.power).toMatchObject({ watts: 1_200, breaker: { level: "fine" } });
    expect(plan.rolls).toMatchObject({ kitSheets: 400, loadedSheets: 400, reserve: 1 });
    expect(plan.sun).toBeNull();
    expect(plan.loadOut.find(({ item }) => item === "rolls")?.count).toBe(plan.rolls.bring);
  });

  it("keeps the ticks of what is in the van, also when somebody says only later that it is packed", async () => {
    const { time, say, planOf } = await aBoothAtFive();
    const tickOf = async (item: string) => (await planOf()).loadOut.find((each) => each.item === item)?.tick;
    await say({ kind: "check", check: "load.printer", isDone: true });
    time.pass(minuteMs);
    await say({ kind: "readiness", to: "packed" });
    expect(await tickOf("printer")).toEqual({ by: owner.name, atMs: sixAtMs - hourMs });
    await say({ kind: "check", check: "load.printer", isDone: false });
    expect(await tickOf("printer")).toBeNull();
  });

  it("is kept by the form as it was sent, and refused by its field", async () => {
    const { ask, bookingId, boothId } = await aBoothAtFive();
    const put = (over: Parameters<typeof aPlan>[1]) =>
      ask("PUT", `/api/bookings/${bookingId}`, aPlan(boothId, over));
    const breaks = [{ fromAtMs: sixAtMs + hourMs, toAtMs: sixAtMs + 2 * hourMs }];
    const said = {
      breaks,
      printSizes: ["2x6" as const],
      printsPerSession: 2,
      travelMin: 40,
      notes: "by the gate",
    };
    expect(await put(said)).toMatchObject({ status: 200, body: said });
    const late = [{ fromAtMs: sixAtMs + 4 * hourMs, toAtMs: sixAtMs + 6 * hourMs }];
    expect(await put({ breaks: late })).toMatchObject({ status: 400, no: { field: "breaks" } });
    const promisedAtMs = sixAtMs + 6 * hourMs;
    expect(await put({ promisedAtMs })).toMatchObject({ status: 400, no: { field: "promisedAtMs" } });
  });
});

describe("the opening checks of a booking", () => {
  it("are ticked by whoever stands at the booth, and proven by what the booth sends", async () => {
    const { time, dashboard, api, boothId, say, check, checks } = await aBoothAtFive();
    expect(await check("level")).toMatchObject({ state: "toDo" });
    expect(await say({ kind: "check", check: "level", isDone: true })).toMatchObject({ status: 201 });
    expect(await check("level")).toMatchObject({ state: "ticked", by: owner.name, atMs: sixAtMs - hourMs });
    expect(await check("agentHeard")).toMatchObject({ state: "toDo" });
    expect(await check("printerAnswers")).toMatchObject({ state: "notPossible", fault: "unreachable" });

    const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
    const sent = [
      aStoredItem("printerState", { source: "printer" }),
      aStoredItem("print", { source: "printer", printId: "test" }),
      aStoredItem("peer", { name: "usb camera" }),
      aStoredItem("host", { source: "host", diskFreeMb: 90_000 }),
    ];
    const atMs = time.clock().wallMs;
    const monoMs = time.clock().monoMs;
    link.batch(
      "boot-1",
      0,
      sent.map((item, at) => ({ ...withoutStamps(item), ...{ seq: at + 1, atMs, monoMs } })),
    );
    await link.next("ack");
    await until(
      async () => (await check("printerAnswers"))?.state === "seen",
      "the booth to see its printer",
    );
    for (const name of ["agentHeard", "testPrint", "camera", "disk"] as const)
      expect(await check(name)).toMatchObject({ state: "seen" });
    expect(await checks()).toMatchObject({
      readyByAtMs: sixAtMs,
      readiness: null,
      next: ["packed", "onSite", "powered"],
    });
  });

  it("follow what is said of where the booth stands", async () => {
    const { say, checks } = await aBoothAtFive();
    await say({ kind: "readiness", to: "powered" });
    await until(async () => (await checks()).readiness?.to === "powered", "the readiness to be folded");
    expect((await checks()).next).toEqual(["checked", "open"]);
  });

  it("are an attendant's at the own booth only, and so is the plan", async () => {
    const { api, other, bookingId, ask, say, attendant } = await aBoothAtFive();
    const second = await api.post("/api/bookings", aPlan(other, { client: "Harbour Choir" }), made);
    const ben = attendant([bookingId]);
    expect(await ask("GET", `/api/bookings/${bookingId}/checks`, undefined, ben)).toMatchObject({
      status: 200,
    });
    expect(await ask("GET", `/api/bookings/${bookingId}/plan`, undefined, ben)).toMatchObject({
      status: 200,
    });
    expect(await say({ kind: "check", check: "level", isDone: true }, ben)).toMatchObject({ status: 201 });
    for (const part of ["plan", "checks"])
      expect(await ask("GET", `/api/bookings/${second.bookingId}/${part}`, undefined, ben)).toMatchObject({
        status: 404,
      });
    const swap = { toBoothId: other, atMs: sixAtMs + hourMs };
    expect(await ask("POST", `/api/bookings/${bookingId}/swap`, swap, ben)).toMatchObject({ status: 403 });
  });
});

describe("another booth that takes over an event", () => {
  const twoHoursIn = sixAtMs + 2 * hourMs;
  const swapped = z.object({
    ended: z.object({ closeAtMs: z.number() }),
    begun: z.object({ bookingId: z.string() }),
  });

  it("ends one booking and begins another of the same event, for the same people", async () => {
    const { api, boothId, other, bookingId, ask, attendant, dashboard } = await aBoothAtFive();
    const breaks = [{ fromAtMs: sixAtMs + hourMs, toAtMs: sixAtMs + 3 * hourMs }];
    await ask("PUT", `/api/bookings/${bookingId}`, aPlan(boothId, { breaks }));
    const ben = attendant([bookingId]);
    const answer = await ask("POST", `/api/bookings/${bookingId}/swap`, {
      toBoothId: other,
      atMs: twoHoursIn,
    });
    expect(answer.status).toBe(201);
    const { begun } = swapped.parse(answer.body);
    const { bookings } = await api.get("/api/bookings", bookingsShape);
    expect(bookings).toMatchObject([
      {
        ...{ bookingId, boothId, openAtMs: sixAtMs, closeAtMs: twoHoursIn, eventId: bookingId },
        breaks: [{ fromAtMs: sixAtMs + hourMs, toAtMs: twoHoursIn }],
      },
      {
        ...{ bookingId: begun.bookingId, boothId: other, openAtMs: twoHoursIn, eventId: bookingId },
        ...{ closeAtMs: sixAtMs + 5 * hourMs, sheetsLoaded: null },
        breaks: [{ fromAtMs: twoHoursIn, toAtMs: sixAtMs + 3 * hourMs }],
      },
    ]);
    const pass = z.object({ bookingIds: z.string() });
    expect(readStore(dashboard.dataDir, "select bookingIds from pass", pass)).toEqual([
      { bookingIds: JSON.stringify([bookingId, begun.bookingId]) },
    ]);
    expect(await ask("GET", `/api/bookings/${begun.bookingId}/checks`, undefined, ben)).toMatchObject({
      status: 200,
    });
  });

  it("keeps a close that was moved, and the booth that left does not stay open by it", async () => {
    const { api, boothId, other, bookingId, ask, say, checks } = await aBoothAtFive();
    const longer = sixAtMs + 6 * hourMs;
    await say({ kind: "extended", bookingId, closeAtMs: longer });
    await until(async () => (await checks()).closeAtMs === longer, "the later close to be folded");
    await ask("POST", `/api/bookings/${bookingId}/swap`, { toBoothId: other, atMs: twoHoursIn });
    const { bookings } = await api.get("/api/bookings", bookingsShape);
    expect(bookings.map(({ closeAtMs }) => closeAtMs)).toEqual([twoHoursIn, longer]);
    await until(async () => (await checks()).closeAtMs === twoHoursIn, "the earlier close to be folded");
    expect((await checks()).boothId).toBe(boothId);
  });

  it("is refused by its field, and then nothing is changed", async () => {
    const { api, boothId, other, bookingId, ask } = await aBoothAtFive();
    const busy = aPlan(other, { client: "Harbour Choir", openAtMs: sixAtMs + 4 * hourMs });
    await api.post("/api/bookings", busy, made);
    const before = await api.get("/api/bookings", bookingsShape);
    const swap = (body: unknown, id = bookingId) => ask("POST", `/api/bookings/${id}/swap`, body);
    expect(await swap({ toBoothId: other, atMs: twoHoursIn })).toMatchObject({
      status: 409,
      no: { error: "overlaps" },
    });
    expect(await swap({ toBoothId: boothId, atMs: twoHoursIn })).toMatchObject({
      status: 400,
      no: { field: "toBoothId" },
    });
    expect(await swap({ toBoothId: "nowhere", atMs: twoHoursIn })).toMatchObject({ status: 400 });
    for (const atMs of [sixAtMs, sixAtMs + 5 * hourMs, 0.5])
      expect(await swap({ toBoothId: other, atMs })).toMatchObject({ status: 400, no: { field: "atMs" } });
    expect(await swap({ toBoothId: other, atMs: twoHoursIn }, "nothing")).toMatchObject({ status: 404 });
    expect(await api.get("/api/bookings", bookingsShape)).toEqual(before);
  });
});

describe("an event of several booths", () => {
  it("is copied with all of them, as one event", async () => {
    const { api, boothId, other } = await aBoothAtFive();
    const next = { openAtMs: sixAtMs + 7 * 24 * hourMs, closeAtMs: sixAtMs + 7 * 24 * hourMs + 5 * hourMs };
    const alongside = [aPlan(other, next)];
    const { bookingId } = await api.post("/api/bookings", { ...aPlan(boothId, next), alongside }, made);
    const { bookings } = await api.get("/api/bookings", bookingsShape);
    const copied = bookings.filter(({ openAtMs }) => openAtMs === next.openAtMs);
    expect(copied.map(({ boothId: each, eventId }) => [each, eventId]).sort()).toEqual(
      [
        [boothId, null],
        [other, bookingId],
      ].sort(),
    );
  });

  it("is copied not at all where one of its booths is busy, gone, twice there or not rightly described", async () => {
    const { api, boothId, other, ask } = await aBoothAtFive();
    const next = { openAtMs: sixAtMs + 7 * 24 * hourMs, closeAtMs: sixAtMs + 7 * 24 * hourMs + 5 * hourMs };
    await api.post("/api/bookings", aPlan(other, { ...next, client: "Harbour Choir" }), made);
    const before = await api.get("/api/bookings", bookingsShape);
    const copy = (...alongside: unknown[]) =>
      ask("POST", "/api/bookings", { ...aPlan(boothId, next), alongside });
    expect(await copy(aPlan(other, next))).toMatchObject({
      status: 409,
      no: { error: "overlaps", sentence: "Sorrel is at Harbour Choir for part of these hours." },
    });
    expect(await copy(aPlan("nowhere", next))).toMatchObject({ status: 400, no: { field: "boothId" } });
    expect(await copy(aPlan(boothId, next))).toMatchObject({ status: 409 });
    expect(await copy({ ...aPlan(other, next), guests: -1 })).toMatchObject({
      status: 400,
      no: { field: "alongside[0].guests" },
    });
    expect(await api.get("/api/bookings", bookingsShape)).toEqual(before);
  });
});

describe("plans of before", () => {
  it("without any of the newer fields are read as they were", async () => {
    const { dashboard, bookingId, ask } = await aBoothAtFive();
    const columns = [
      "printSizes",
      "printsPerSession",
      "breaks",
      "eventId",
      "power",
      "promisedAtMs",
      "travelMin",
      "notes",
    ];
    const paths = columns.map((column) => `'$.${column}'`).join(", ");
    changeStore(dashboard.dataDir, `update booking set plan = json_remove(plan, ${paths})`);
    const plan = planView.parse((await ask("GET", `/api/bookings/${bookingId}/plan`)).body);
    expect(plan.booking).toMatchObject({ printSizes: [], breaks: [], power: null, notes: "" });
    expect(plan.power).toBeNull();
  });
});
