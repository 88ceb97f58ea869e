import { describe, expect, it } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner, owner, pairAgent, signIn } from "../../support/aDashboard.ts";
import { request } from "../../support/aRequest.ts";
import { handTime } from "../../support/handTime.ts";
import { readStore } from "../../support/readStore.ts";

const cookieOf = (headers: Headers) => headers.getSetCookie()[0] ?? "";

describe("the first run", () => {
  it("makes the owner with the link of the console, signs in, and is over then", async () => {
    const dashboard = await aDashboard();
    const code = dashboard.firstRunUrl?.split("#code=")[1];
    expect((await request(dashboard.url, "/api/me")).body).toEqual({ isFirstRun: true, signedIn: null });
    const post = { method: "POST", body: { code, ...owner } };
    const made = await request(dashboard.url, "/api/first-run", post);
    expect(made.status).toBe(201);
    const cookie = cookieOf(made.headers).split(";")[0] ?? "";
    expect((await request(dashboard.url, "/api/me", { headers: { cookie } })).body).toEqual({
      isFirstRun: false,
      signedIn: { name: "Ama", role: "owner", boothIds: null, expiresAtMs: expect.any(Number) as number },
    });
    expect((await request(dashboard.url, "/api/first-run", post)).no?.error).toBe("usedCode");
    expect((await dashboard.reopen()).firstRunUrl).toBeNull();
  });

  it("prints another link at the next start while there is no owner, and the old one is good for nothing", async () => {
    const dashboard = await aDashboard();
    const reopened = await dashboard.reopen();
    expect(reopened.firstRunUrl).not.toBeNull();
    const code = dashboard.firstRunUrl?.split("#code=")[1];
    const post = { method: "POST", body: { code, ...owner } };
    expect((await request(reopened.url, "/api/first-run", post)).no?.error).toBe("wrongCode");
  });

  it("wants a password of ten letters or more and does not repeat the one it got", async () => {
    const dashboard = await aDashboard();
    const code = dashboard.firstRunUrl?.split("#code=")[1];
    const body = { code, name: "Ama", password: "hush" };
    const { status, no } = await request(dashboard.url, "/api/first-run", { method: "POST", body });
    expect([status, no?.field]).toEqual([400, "password"]);
    expect(JSON.stringify(no)).not.toContain("hush");
  });
});

describe("signing in", () => {
  it("gives a cookie that scripts and other sites cannot use", async () => {
    const dashboard = await aDashboard();
    await anOwner(dashboard);
    const { headers } = await request(dashboard.url, "/api/sign-in", { method: "POST", body: owner });
    // Source: RFC 6265 section 4.1.2, and its revision for SameSite.
    expect(cookieOf(headers)).toMatch(/; HttpOnly; SameSite=Strict$/);
    expect(cookieOf(headers)).toContain("; Path=/;");
  });

  it("marks the cookie as secure where the dashboard is reached over https", async () => {
    const origin = "https://booths.example";
    const dashboard = await aDashboard({ origin });
    const code = dashboard.firstRunUrl?.split("#code=")[1];
    expect(dashboard.firstRunUrl).toContain(`${origin}/first-run#code=`);
    const body = { code, ...owner };
    const made = await request(dashboard.url, "/api/first-run", {
      method: "POST",
      body,
      headers: { origin },
    });
    expect(cookieOf(made.headers)).toContain("; Secure");
    expect(made.headers.get("strict-transport-security")).not.toBeNull();
  });

  it.each([
    ["a wrong password", { ...owner, password: "another long evening" }],
    ["a name nobody has", { ...owner, name: "Nobody" }],
  ])("refuses %s with the same words", async (_what, body) => {
    const dashboard = await aDashboard();
    await anOwner(dashboard);
    const { status, no, headers } = await request(dashboard.url, "/api/sign-in", { method: "POST", body });
    expect(status).toBe(401);
    expect(no?.sentence).toBe("Name and password do not belong together.");
    expect(headers.getSetCookie()).toEqual([]);
    expect(dashboard.lines.join("")).not.toContain(body.password);
  });

  it("refuses after too many wrong tries, also the right password, and says how long", async () => {
    const dashboard = await aDashboard({ mostFailedTries: 3 });
    await anOwner(dashboard);
    for (const password of ["wrong", "wrong again", "and again"])
      await request(dashboard.url, "/api/sign-in", { method: "POST", body: { ...owner, password } });
    const { status, no } = await request(dashboard.url, "/api/sign-in", { method: "POST", body: owner });
    expect([status, no?.error]).toEqual([429, "tooManyTries"]);
    expect(no?.sentence).toContain("ten minutes");
    expect(dashboard.lines.filter((line) => line.includes("too many tries"))).toHaveLength(1);
  });

  it("does not count tries that succeed", async () => {
    const dashboard = await aDashboard({ mostFailedTries: 3 });
    await anOwner(dashboard);
    for (let tries = 0; tries < 5; tries++) await signIn(dashboard);
  });

  it("takes a password typed in another form of the same letters", async () => {
    const dashboard = await aDashboard();
    const code = dashboard.firstRunUrl?.split("#code=")[1];
    const composed = { code, name: "Ama", password: "caf\u00e9 au lait" };
    await request(dashboard.url, "/api/first-run", { method: "POST", body: composed });
    const body = { name: "Ama", password: "cafe\u0301 au lait" };
    expect((await request(dashboard.url, "/api/sign-in", { method: "POST", body })).status).toBe(200);
  });

  it("keeps passwords and tokens only as hashes", async () => {
    const dashboard = await aDashboard();
    const api = await anOwner(dashboard);
    const token = await pairAgent(api, await addBooth(api));
    await dashboard.close();
    const row = z.object({ all: z.string() });
    const rows = [
      ...readStore(dashboard.dataDir, `select name || passwordHash as "all" from account`, row),
      ...readStore(dashboard.dataDir, `select tokenHash || accountId as "all" from signIn`, row),
      ...readStore(dashboard.dataDir, `select tokenHash || agentId as "all" from agent`, row),
      ...readStore(dashboard.dataDir, `select codeHash || purpose as "all" from oneTime`, row),
    ].map(({ all }) => all);
    expect(rows.length).toBeGreaterThanOrEqual(5);
    const text = rows.join(" ");
    expect(text).toContain("scrypt$");
    for (const secret of [owner.password, token, api.cookie().split("=")[1] ?? "?"])
      expect(text).not.toContain(secret);
  });

  it("ends when a person signs out, for that device only", async () => {
    const dashboard = await aDashboard();
    const phone = await anOwner(dashboard);
    const tablet = await signIn(dashboard);
    const held = { headers: { cookie: phone.cookie() } };
    await phone.post("/api/sign-out", {}, z.unknown());
    expect((await request(dashboard.url, "/api/booths", held)).status).toBe(401);
    await tablet.get("/api/booths", z.unknown());
  });

  it("ends after a month", async () => {
    const time = handTime();
    const dashboard = await aDashboard({ clock: time.clock });
    const api = await anOwner(dashboard);
    time.pass(30 * 24 * 3_600_000 - 1);
    await api.get("/api/booths", z.unknown());
    time.pass(1);
    await expect(api.get("/api/booths", z.unknown())).rejects.toThrow("401");
  });
});

describe("a link for another phone", () => {
  const linkShape = z.object({ path: z.string(), expiresAtMs: z.number() });

  it("signs in once", async () => {
    const dashboard = await aDashboard();
    const api = await anOwner(dashboard);
    const { path } = await api.post("/api/sign-in-links", {}, linkShape);
    const [page, token] = path.split("#once=");
    expect(page).toBe("/sign-in");
    const post = { method: "POST", body: { token } };
    const first = await request(dashboard.url, "/api/sign-in-once", post);
    expect(first.status).toBe(200);
    const cookie = cookieOf(first.headers).split(";")[0] ?? "";
    expect((await request(dashboard.url, "/api/booths", { headers: { cookie } })).status).toBe(200);
    const second = await request(dashboard.url, "/api/sign-in-once", post);
    expect([second.status, second.no?.error]).toEqual([410, "usedCode"]);
  });

  it("is good until it says so, and an invented one never", async () => {
    const time = handTime();
    const dashboard = await aDashboard({ clock: time.clock });
    const api = await anOwner(dashboard);
    const { path, expiresAtMs } = await api.post("/api/sign-in-links", {}, linkShape);
    time.pass(expiresAtMs - time.clock().wallMs);
    const ask = (token: string | undefined) =>
      request(dashboard.url, "/api/sign-in-once", { method: "POST", body: { token } });
    expect((await ask(path.split("#once=")[1])).no?.error).toBe("expiredCode");
    expect((await ask("invented")).no?.error).toBe("wrongCode");
  });
});
