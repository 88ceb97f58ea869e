import { describe, expect, it } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner } from "../../support/aDashboard.ts";
import { aPlan } from "../../support/aPlan.ts";
import { aReceiver } from "../../support/aReceiver.ts";
import { request } from "../../support/aRequest.ts";
import { changeStore, readStore } from "../../support/readStore.ts";
import { handTime } from "../../support/handTime.ts";
import { aBrowser } from "../../support/pushDecryption.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";
import { secretHash } from "../../../dashboard/store/secretHash.ts";

/** A dashboard at six with one booth open from six, its owner, and an attendant with a pass for it. */
async function aCrew() {
  const time = handTime(sixAtMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const [juniper, sorrel] = [await addBooth(api), await addBooth(api, "Sorrel")];
  const made = z.object({ bookingId: z.string() });
  const { bookingId } = await api.post("/api/bookings", aPlan(juniper), made);
  const later = { openAtMs: sixAtMs + 30 * hourMs, closeAtMs: sixAtMs + 35 * hourMs };
  await api.post("/api/bookings", aPlan(sorrel, later), made);
  addPass(dashboard.dataDir, bookingId);
  const asked = (cookie: string) => (method: string, path: string, body?: unknown) =>
    request(dashboard.url, path, { method, body, headers: { cookie, origin: dashboard.url } });
  const owner = asked(api.cookie());
  const attendant = asked("boothwardSignIn=kofi");
  return { time, dashboard, api, juniper, sorrel, owner, attendant };
}

/** A pass and a device that came in by it, past the routes that make them. */
function addPass(dataDir: string, bookingId: string): void {
  const ends = sixAtMs + 8 * hourMs;
  changeStore(
    dataDir,
    `insert into pass values ('kofi', 'link', 'Kofi', '["${bookingId}"]', 'Ama', 0, ${ends}, null);
     insert into passSignIn values ('${secretHash("kofi")}', 'kofi', 'a phone', 0, ${ends});`,
  );
}

const aPush = () => ({
  ...{ way: "push", label: "Chrome on Android" },
  body: { endpoint: "https://push.example/one", keys: aBrowser().keys },
});
const aHook = (url: string) => ({ way: "webhook", label: "office", body: { url } });
const testHeard = z.object({ boothId: z.string(), body: z.string() });

describe("ways to reach oneself", () => {
  it("are each person's own, and show no secret", async () => {
    const { owner, attendant } = await aCrew();
    expect(await owner("POST", "/api/reaches", aHook("https://office.example/in?key=abc"))).toMatchObject({
      ...{ status: 201, body: { secret: expect.stringMatching(/^whsec_[A-Za-z0-9+/]{43}=$/) as unknown } },
    });
    expect(await attendant("POST", "/api/reaches", aPush())).toMatchObject({ status: 201 });
    const [mine, theirs] = [await owner("GET", "/api/reaches"), await attendant("GET", "/api/reaches")];
    expect(mine.body).toMatchObject({ reaches: [{ way: "webhook", label: "office", to: "office.example" }] });
    expect(theirs.body).toMatchObject({
      reaches: [{ way: "push", to: "push.example", troubleFromAtMs: null }],
    });
    expect(JSON.stringify([mine.body, theirs.body])).not.toMatch(/whsec|key=abc|p256dh/);
  });

  it("are taken out by their own person only", async () => {
    const { owner, attendant } = await aCrew();
    const { reachId } = z
      .object({ reachId: z.string() })
      .parse((await owner("POST", "/api/reaches", aPush())).body);
    expect(await attendant("DELETE", `/api/reaches/${reachId}`)).toMatchObject({ status: 404 });
    expect(await owner("DELETE", `/api/reaches/${reachId}`)).toMatchObject({ status: 200 });
    expect(await owner("DELETE", `/api/reaches/${reachId}`)).toMatchObject({ status: 404 });
    expect((await owner("GET", "/api/reaches")).body).toEqual({ reaches: [] });
  });

  it("by one browser are one: chosen again it takes the place of the other, also of another person's", async () => {
    const { owner, attendant } = await aCrew();
    const push = aPush();
    for (let times = 0; times < 12; times++)
      expect((await owner("POST", "/api/reaches", push)).status).toBe(201);
    expect((await owner("GET", "/api/reaches")).body).toMatchObject({ reaches: [{ way: "push" }] });
    await attendant("POST", "/api/reaches", push);
    expect((await owner("GET", "/api/reaches")).body).toEqual({ reaches: [] });
  });

  it("are no more than ten", async () => {
    const { owner } = await aCrew();
    for (let times = 0; times < 10; times++) await owner("POST", "/api/reaches", aPush());
    expect(await owner("POST", "/api/reaches", aPush())).toMatchObject({
      status: 409,
      no: { error: "tooManyReaches" },
    });
  });

  it("that make this machine call an address are the owner's", async () => {
    const { attendant } = await aCrew();
    const call = {
      method: "GET",
      url: "https://x.example/?m={text}",
      headers: [],
      form: "text",
      template: "",
    };
    for (const reach of [aHook("https://office.example/"), { way: "http", label: "call", body: call }])
      expect(await attendant("POST", "/api/reaches", reach)).toMatchObject({ status: 403 });
    expect(
      await attendant("POST", "/api/reaches", {
        way: "email",
        label: "mail",
        body: { to: "kofi@x.example" },
      }),
    ).toMatchObject({ status: 201 });
  });

  it.each([
    ["body.endpoint", { ...aPush(), body: { ...aPush().body, endpoint: "http://push.example/" } }],
    [
      "body.keys.auth",
      { ...aPush(), body: { endpoint: "https://push.example/", keys: { ...aBrowser().keys, auth: "x" } } },
    ],
    ["body.to", { way: "email", label: "mail", body: { to: "nobody" } }],
    ["body.url", aHook("file:///etc/passwd")],
    ["label", { ...aPush(), label: "" }],
    [
      "body.template",
      {
        way: "http",
        label: "call",
        body: { method: "POST", url: "https://x.example/", headers: [], form: "json", template: '"{txet}"' },
      },
    ],
  ])("with a wrong %s are refused, naming it", async (field, reach) => {
    const { owner } = await aCrew();
    const { status, no } = await owner("POST", "/api/reaches", reach);
    expect([status, no?.field]).toEqual([400, field]);
    expect(no?.sentence).toContain(field.split(".").at(-1));
  });

  it("are nobody's without a sign-in", async () => {
    const { dashboard } = await aCrew();
    for (const path of ["/api/reaches", "/api/reach-key", "/api/settings/notices", "/api/test-alert/x"])
      expect(await request(dashboard.url, path)).toMatchObject({ status: 401 });
  });
});

describe("a test alert", () => {
  const begun = z.object({ noticeId: z.string() });
  const hooked = z.object({ data: z.object({ link: z.string() }) });

  /** What a device finds in the link of a test. */
  function arrivalIn(body: Buffer) {
    const { hash } = new URL(hooked.parse(JSON.parse(body.toString())).data.link);
    const said = new URLSearchParams(hash.slice(1));
    return { deliveryId: said.get("delivery"), secret: said.get("secret") };
  }

  it("goes the whole real way, and its arrival is a fact of each booth of the person", async () => {
    const { dashboard, owner, juniper, attendant } = await aCrew();
    const receiver = await aReceiver();
    await owner("POST", "/api/reaches", aHook(receiver.url));
    const { noticeId } = begun.parse((await owner("POST", "/api/test-alert", {})).body);
    await dashboard.settled();
    expect((await owner("GET", `/api/test-alert/${noticeId}`)).body).toMatchObject({
      ...{
        ended: "told",
        deliveries: [{ way: "webhook", label: "office", state: "taken", arrivedAtMs: null }],
      },
    });
    expect(await attendant("GET", `/api/test-alert/${noticeId}`)).toMatchObject({ status: 404 });
    const arrival = arrivalIn(receiver.calls[0]?.body ?? Buffer.alloc(0));
    const tell = (body: unknown) => request(dashboard.url, "/api/arrivals", { method: "POST", body });
    expect(await tell({ ...arrival, secret: "guessed" })).toMatchObject({ status: 403 });
    expect(await tell({ ...arrival, deliveryId: "other" })).toMatchObject({ status: 403 });
    expect(await tell(arrival)).toMatchObject({ status: 200 });
    expect(await tell(arrival)).toMatchObject({ status: 200 });
    expect((await owner("GET", `/api/test-alert/${noticeId}`)).body).toMatchObject({
      deliveries: [{ arrivedAtMs: sixAtMs }],
    });
    // Sorrel's event is more than a day away.
    const facts = readStore(dashboard.dataDir, "select * from fact where kind = 'testHeard'", testHeard);
    expect(facts.map(({ boothId }) => boothId)).toEqual([juniper]);
    expect(JSON.parse(facts[0]?.body ?? "")).toMatchObject({ role: "owner", way: "webhook", by: "Ama" });
  });

  it("of an attendant is of the booths of the pass", async () => {
    const { dashboard, attendant, juniper } = await aCrew();
    const receiver = await aReceiver();
    // As a push would come, by a way that a test can listen to.
    const body = JSON.stringify({ url: receiver.url, secret: "whsec_AAAA" });
    changeStore(
      dashboard.dataDir,
      `insert into reach (reachId, way, passId, label, body, createdAtMs) values ('r', 'webhook', 'kofi', 'phone', '${body}', 0)`,
    );
    await attendant("POST", "/api/test-alert", {});
    await dashboard.settled();
    const arrival = arrivalIn(receiver.calls[0]?.body ?? Buffer.alloc(0));
    await request(dashboard.url, "/api/arrivals", { method: "POST", body: arrival });
    const facts = readStore(dashboard.dataDir, "select * from fact where kind = 'testHeard'", testHeard);
    expect(facts.map(({ boothId }) => boothId)).toEqual([juniper]);
    expect(JSON.parse(facts[0]?.body ?? "")).toMatchObject({ role: "attendant", by: "Kofi" });
  });

  it("is not sent more than six times a minute", async () => {
    const { owner } = await aCrew();
    const statuses = [];
    for (let times = 0; times < 7; times++)
      statuses.push((await owner("POST", "/api/test-alert", {})).status);
    expect(statuses).toEqual([201, 201, 201, 201, 201, 201, 429]);
  });

  it("by secrets that are guessed is stopped", async () => {
    const { dashboard } = await aCrew();
    const body = { deliveryId: "d", secret: "guessed" };
    const guess = () => request(dashboard.url, "/api/arrivals", { method: "POST", body });
    for (let times = 0; times < 10; times++) expect((await guess()).status).toBe(403);
    expect((await guess()).status).toBe(429);
  });
});

describe("what the business chose about its notices", () => {
  const path = "/api/settings/notices";
  const mail = {
    host: "mail.example",
    port: 587,
    security: "startTls",
    user: "booths",
    from: "booths@x.example",
  };

  it("has defaults, and is the owner's", async () => {
    const { owner, attendant } = await aCrew();
    expect((await owner("GET", path)).body).toEqual({
      ...{ escalateAfterMin: { actNow: 3, plan: 15 }, repeatAfterMin: 10, rulesOff: [], mail: null },
      ...{ units: "metric", ping: null, quietHours: null, hasMailPassword: false },
    });
    expect(await attendant("GET", path)).toMatchObject({ status: 403 });
    expect(await attendant("PUT", path, {})).toMatchObject({ status: 403 });
  });

  it("is kept, and never gives the mail server's password back", async () => {
    const { owner, dashboard } = await aCrew();
    const chosen = {
      ...{ escalateAfterMin: { actNow: 5, plan: 30 }, repeatAfterMin: 20, rulesOff: ["sunComing"], mail },
      ...{ units: "us", ping: { url: "https://watch.example/x", everyMin: 5 } },
      quietHours: { from: "22:00", to: "07:00", zone: "Europe/Berlin" },
    };
    const put = await owner("PUT", path, { ...chosen, mailPassword: "a long secret" });
    expect(put).toMatchObject({ status: 200, body: { ...chosen, hasMailPassword: true } });
    expect(JSON.stringify([put.body, (await owner("GET", path)).body])).not.toContain("a long secret");
    expect((await owner("PUT", path, chosen)).body).toMatchObject({ hasMailPassword: true });
    expect((await owner("PUT", path, { ...chosen, mailPassword: null })).body).toMatchObject({
      hasMailPassword: false,
    });
    expect(dashboard.lines.join()).not.toContain("a long secret");
  });

  it.each([
    ["quietHours.from", { quietHours: { from: "25:00", to: "07:00", zone: "Europe/Berlin" } }],
    ["quietHours.to", { quietHours: { from: "22:00", to: "22:00", zone: "Europe/Berlin" } }],
    ["quietHours.zone", { quietHours: { from: "22:00", to: "07:00", zone: "Nowhere" } }],
    ["escalateAfterMin.plan", { escalateAfterMin: { plan: 0 } }],
    ["units", { units: "kelvin" }],
    ["mail.port", { mail: { ...mail, port: 70_000 } }],
    ["ping.url", { ping: { url: "watch", everyMin: 5 } }],
    ["rulesOff[0]", { rulesOff: ["wind"] }],
  ])("with a wrong %s is refused, naming it", async (field, chosen) => {
    const { owner } = await aCrew();
    const { status, no } = await owner("PUT", path, chosen);
    expect([status, no?.field]).toEqual([400, field]);
  });
});
