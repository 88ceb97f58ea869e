import type { BoothView } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner, owner, pairAgent } from "../../support/aDashboard.ts";
import { aGreetedLink, sentSession } from "../../support/aLinkClient.ts";
import { aPlan } from "../../support/aPlan.ts";
import { request } from "../../support/aRequest.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { readStore } from "../../support/readStore.ts";
import { seeBooths } from "../../support/seeBooths.ts";
import { until } from "../../support/until.ts";

const named = z.object({ bootId: z.string(), seq: z.number(), atMs: z.number() });

/** A booth at 20:00, open since 18:00, of whose paper nothing is planned. */
async function aBoothAtEight() {
  const time = handTime(sixAtMs + 2 * hourMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api);
  const made = z.object({ bookingId: z.string() });
  const { bookingId } = await api.post("/api/bookings", aPlan(boothId, { sheetsLoaded: null }), made);
  const path = `/api/booths/${boothId}/facts`;
  const headers = { cookie: api.cookie(), origin: dashboard.url };
  const say = (body: unknown, to = path) => request(dashboard.url, to, { method: "POST", body, headers });
  const name = async (body: unknown) => named.parse((await say(body)).body);
  const seen = async (look: (booth: BoothView) => boolean, what: string) =>
    until(async () => (await seeBooths(api)).some(look), what);
  return { time, dashboard, api, boothId, bookingId, say, name, seen };
}

/** A full kit of 400 less the two sheets that fitting it wastes. */
const fresh = 398;

const storedFact = z.object({
  kind: z.string(),
  atMs: z.number(),
  receivedAtMs: z.number(),
  body: z.string(),
});
const factsIn = (dataDir: string) => readStore(dataDir, "select * from fact order by seq", storedFact);

describe("what a person says", () => {
  it("of a roll fitted or of what is left is a fact, shown at once, in that person's name", async () => {
    const { time, dashboard, name, seen } = await aBoothAtEight();
    expect(await name({ kind: "rollFitted", sheets: 400 })).toEqual({
      ...{ bootId: "dashboard", seq: 1, atMs: time.clock().wallMs },
    });
    await seen((booth) => booth.media?.sheetsLeft === fresh, "the page to show the roll");
    time.pass(minuteMs);
    expect(await name({ kind: "correction", sheetsLeft: 390 })).toMatchObject({ seq: 2 });
    await seen((booth) => booth.media?.figure === "confirmed", "the page to show who counted");
    for (const { body } of factsIn(dashboard.dataDir))
      expect(JSON.parse(body)).toMatchObject({ by: owner.name, source: "dashboard", class: "fact" });
  });

  it("may be of an earlier moment: both times are kept", async () => {
    const { time, dashboard, name, seen } = await aBoothAtEight();
    const nowMs = time.clock().wallMs;
    const atMs = nowMs - 8 * minuteMs;
    expect(await name({ kind: "rollFitted", sheets: 400, atMs })).toMatchObject({ atMs });
    expect(factsIn(dashboard.dataDir)).toMatchObject([{ kind: "rollFitted", atMs, receivedAtMs: nowMs }]);
    await seen((booth) => booth.media?.rollFittedAtMs === atMs, "the page to show when it was fitted");
  });

  it.each([
    { kind: "rollTakenOff", sheetsLeft: 60 },
    { kind: "rollTakenOff", sheetsLeft: null },
    { kind: "rollDenied" },
    { kind: "waste", pitches: 2, cause: "test" },
    { kind: "authority", sessionsBy: "shots", pitchesBy: null },
    { kind: "readiness", to: "onBreak" },
    { kind: "check", check: "level", isDone: true },
  ])("$kind is kept as it was said", async (said) => {
    const { dashboard, say } = await aBoothAtEight();
    expect(await say(said)).toMatchObject({ status: 201, body: { bootId: "dashboard", seq: 1 } });
    const [fact] = factsIn(dashboard.dataDir);
    expect(JSON.parse(fact?.body ?? "")).toMatchObject({ ...said, by: owner.name });
  });

  it("moves the close of this booth's booking", async () => {
    const { bookingId, say, seen } = await aBoothAtEight();
    const closeAtMs = sixAtMs + 6 * hourMs;
    expect(await say({ kind: "extended", bookingId, closeAtMs })).toMatchObject({ status: 201 });
    await seen((booth) => booth.booking?.closeAtMs === closeAtMs, "the page to show the new close");
  });

  it("is taken back by the name of the fact, and so is a taking back", async () => {
    const { api, say, name, dashboard, seen } = await aBoothAtEight();
    const { bootId, seq } = await name({ kind: "rollFitted", sheets: 400 });
    await seen((booth) => booth.media?.sheetsLeft === fresh, "the page to show the roll");
    const takenBack = await name({ kind: "takenBack", bootId, seq });
    expect(factsIn(dashboard.dataDir).at(-1)?.kind).toBe("takenBack");
    await seen((booth) => booth.media === null, "the page to forget the roll");
    await name({ kind: "takenBack", bootId: takenBack.bootId, seq: takenBack.seq });
    await seen((booth) => booth.media?.sheetsLeft === fresh, "the page to show the roll again");

    const back = (of: string, number: number, to?: string) =>
      say({ kind: "takenBack", bootId: of, seq: number }, to);
    expect(await back(bootId, 99)).toMatchObject({ status: 404, no: { field: "seq" } });
    expect((await back(bootId, 99)).no?.sentence).toContain("99");
    expect(await back("elsewhere", seq)).toMatchObject({ status: 404, no: { error: "noSuchFact" } });
    const sorrel = await addBooth(api, "Sorrel");
    expect(await back(bootId, seq, `/api/booths/${sorrel}/facts`)).toMatchObject({ status: 404 });
  });

  it("is a person's only: what a source saw is not taken back", async () => {
    const { api, boothId, dashboard, say } = await aBoothAtEight();
    const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
    link.batch("boot-1", 0, [sentSession(1)]);
    await link.next("ack");
    expect(await say({ kind: "takenBack", bootId: "boot-1", seq: 1 })).toMatchObject({
      ...{ status: 409, no: { error: "notTakenBack", field: "seq" } },
    });
  });

  it.each([
    ["kind", { kind: "print", pitches: 3 }],
    ["sheets", { kind: "rollFitted", sheets: 0 }],
    ["sheets", { kind: "rollFitted", sheets: 5_001 }],
    ["sheetsLeft", { kind: "correction", sheetsLeft: -1 }],
    ["sheetsLeft", { kind: "rollTakenOff" }],
    ["pitches", { kind: "waste", pitches: 0, cause: "test" }],
    ["cause", { kind: "waste", pitches: 2, cause: "wind" }],
    ["sessionsBy", { kind: "authority", sessionsBy: "a guess", pitchesBy: null }],
    ["to", { kind: "readiness", to: "asleep" }],
    ["check", { kind: "check", check: " ", isDone: true }],
    ["isDone", { kind: "check", check: "level" }],
    ["bookingId", { kind: "extended", bookingId: "no-such", closeAtMs: sixAtMs + 6 * hourMs }],
    ["seq", { kind: "takenBack", bootId: "dashboard", seq: 0 }],
    ["atMs", { kind: "rollFitted", sheets: 400, atMs: sixAtMs + 2 * hourMs + 6_000 }],
    ["atMs", { kind: "rollDenied", atMs: sixAtMs - 4 * hourMs - 1 }],
    ["atMs", { kind: "rollDenied", atMs: sixAtMs + 0.5 }],
  ])("with a wrong %s is refused, naming the field, and nothing is kept", async (field, said) => {
    const { dashboard, say } = await aBoothAtEight();
    const { status, no } = await say(said);
    expect([status, no?.field]).toEqual([400, field]);
    expect(no?.sentence).toContain(field);
    expect(factsIn(dashboard.dataDir)).toEqual([]);
  });

  it("with a close before the opening or days later is refused", async () => {
    const { bookingId, say } = await aBoothAtEight();
    for (const closeAtMs of [sixAtMs, sixAtMs + 49 * hourMs])
      expect(await say({ kind: "extended", bookingId, closeAtMs })).toMatchObject({
        ...{ status: 400, no: { field: "closeAtMs" } },
      });
  });

  it("of no booth at all, or without a sign-in, is refused", async () => {
    const { dashboard, say } = await aBoothAtEight();
    expect(await say({ kind: "rollDenied" }, "/api/booths/nowhere/facts")).toMatchObject({ status: 404 });
    const path = "/api/booths/nowhere/facts";
    expect(await request(dashboard.url, path, { method: "POST", body: {} })).toMatchObject({ status: 401 });
  });
});
