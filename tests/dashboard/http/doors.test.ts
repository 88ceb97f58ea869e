import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { WebSocket } from "ws";
import { addBooth, aDashboard, anOwner } from "../../support/aDashboard.ts";
import { request } from "../../support/aRequest.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";

const behindSignIn = [
  ["GET", "/api/booths"],
  ["POST", "/api/booths"],
  ["PUT", "/api/booths/any"],
  ["GET", "/api/booths/any/evening"],
  ["POST", "/api/booths/any/facts"],
  ["POST", "/api/booths/any/pairing-codes"],
  ["POST", "/api/agents/any/revoke"],
  ["GET", "/api/bookings"],
  ["POST", "/api/bookings"],
  ["PUT", "/api/bookings/any"],
  ["DELETE", "/api/bookings/any"],
  ["GET", "/api/bookings/any/plan"],
  ["GET", "/api/bookings/any/checks"],
  ["POST", "/api/bookings/any/swap"],
  ["GET", "/api/bookings/any/loaded"],
  ["PUT", "/api/bookings/any/loaded"],
  ["POST", "/api/sign-in-links"],
  ["GET", "/api/abilities"],
] as const;

/** The status with which a socket is refused, or "open". */
function knock(url: string, path: string, headers: Record<string, string>): Promise<number | "open"> {
  return new Promise((resolve, reject) => {
    const socket = new WebSocket(url.replace("http", "ws") + path, { headers });
    socket.on("open", () => {
      socket.terminate();
      resolve("open");
    });
    socket.on("unexpected-response", (_request, response) => {
      response.resume();
      resolve(response.statusCode ?? 0);
    });
    socket.on("error", reject);
  });
}

describe("without a sign-in", () => {
  it.each(behindSignIn)("%s %s is refused with 401", async (method, path) => {
    const dashboard = await aDashboard();
    const { status, no } = await request(dashboard.url, path, {
      method,
      headers: { cookie: "boothwardSignIn=no" },
    });
    expect([status, no?.error]).toEqual([401, "notSignedIn"]);
  });

  it("knows every address that is behind it", async () => {
    const dashboard = await aDashboard();
    await addBooth(await anOwner(dashboard));
    const open = [
      "/api/me",
      "/api/first-run",
      "/api/sign-in",
      "/api/sign-out",
      "/api/sign-in-once",
      "/api/pair",
    ];
    for (const path of open) {
      const { body } = await request(dashboard.url, path, { method: "GET" });
      expect(JSON.stringify(body)).not.toContain("Juniper");
    }
  });

  it("the live socket is refused with 401", async () => {
    const dashboard = await aDashboard();
    expect(await knock(dashboard.url, "/live", { origin: dashboard.url })).toBe(401);
    expect(await knock(dashboard.url, "/live", { origin: dashboard.url, cookie: "boothwardSignIn=no" })).toBe(
      401,
    );
  });
});

describe("other sites", () => {
  it("cannot change anything", async () => {
    const dashboard = await aDashboard();
    const api = await anOwner(dashboard);
    const body = { name: "Thistle", isTrailer: false, kitSheets: 400, limitC: 40 };
    for (const origin of ["https://elsewhere.example", "null", `${dashboard.url}.elsewhere.example`]) {
      const headers = { cookie: api.cookie(), origin };
      const { status, no } = await request(dashboard.url, "/api/booths", { method: "POST", body, headers });
      expect([status, no?.error]).toEqual([403, "foreignOrigin"]);
    }
  });

  it("cannot open the live socket, with a cookie or without an origin", async () => {
    const dashboard = await aDashboard();
    const cookie = (await anOwner(dashboard)).cookie();
    const origin = "https://elsewhere.example";
    expect(await knock(dashboard.url, "/live", { cookie, origin })).toBe(403);
    expect(await knock(dashboard.url, "/live", { cookie })).toBe(403);
    expect(await knock(dashboard.url, "/live", { cookie, origin: dashboard.url })).toBe("open");
  });

  it("may not frame a page, and a page loads nothing from them", async () => {
    const dashboard = await aDashboard();
    const { headers } = await request(dashboard.url, "/api/me");
    const policy = headers.get("content-security-policy") ?? "";
    // Source: Content Security Policy Level 3, section 6: 'none' and 'self' name no other origin.
    expect(policy).toContain("default-src 'none'");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/https?:|unsafe|\*/);
    expect(headers.get("x-content-type-options")).toBe("nosniff");
    expect(headers.get("x-powered-by")).toBeNull();
  });
});

describe("addresses", () => {
  it.each([
    ["GET", "/api/nothing", 404],
    ["GET", "/nothing.txt", 404],
    ["GET", "/api/booths/%E0%A4%A", 404],
    ["DELETE", "/api/booths", 405],
    ["GET", "/api/pair", 405],
  ])("%s %s is answered with %d and a sentence", async (method, path, status) => {
    const dashboard = await aDashboard();
    const answered = await request(dashboard.url, path, { method });
    expect(answered.status).toBe(status);
    expect(answered.no?.sentence).toMatch(/\.$/);
  });

  it("says which methods there are", async () => {
    const dashboard = await aDashboard();
    const { headers } = await request(dashboard.url, "/api/bookings/any", { method: "PATCH" });
    expect(headers.get("allow")).toBe("PUT, DELETE");
  });

  it("refuses a body that is not JSON, or too large", async () => {
    const dashboard = await aDashboard();
    const ask = (body: string) => request(dashboard.url, "/api/sign-in", { method: "POST", body });
    expect(await ask("{")).toMatchObject({ status: 400, no: { error: "wrongBody" } });
    expect(await ask(JSON.stringify({ name: "x".repeat(40_000) }))).toMatchObject({ status: 413 });
  });

  it("refuses a socket at another address", async () => {
    const dashboard = await aDashboard();
    expect(await knock(dashboard.url, "/elsewhere", {})).toBe(404);
  });
});

describe("pages", () => {
  function somePages(): string {
    const dir = scratchFolder();
    mkdirSync(join(dir, "assets"));
    mkdirSync(join(dir, ".vite"));
    writeFileSync(join(dir, "index.html"), "<!doctype html><title>Boothward</title>");
    writeFileSync(join(dir, "assets", "main-abc.js"), "export {};");
    writeFileSync(join(dir, "sw.js"), "self.skipped = false;");
    writeFileSync(join(dir, "manifest.webmanifest"), "{}");
    writeFileSync(join(dir, ".vite", "manifest.json"), "{}");
    return dir;
  }

  it.each([
    ...["/", "/booths/juniper", "/booths/juniper/attend", "/alerts", "/run-sheet", "/set-up"],
    ...["/sign-in", "/first-run", "/join", "/heard"],
  ])("%s loads the shell, which is asked for anew each time", async (path) => {
    const dashboard = await aDashboard({ pagesDir: somePages() });
    const response = await fetch(dashboard.url + path);
    expect(await response.text()).toContain("<title>Boothward</title>");
    expect(response.headers.get("cache-control")).toBe("no-cache");
  });

  it("asks for the worker and the manifest anew each time, and puts the worker in charge of all", async () => {
    const dashboard = await aDashboard({ pagesDir: somePages() });
    const worker = await fetch(`${dashboard.url}/sw.js`);
    expect(worker.headers.get("content-type")).toContain("text/javascript");
    expect(worker.headers.get("cache-control")).toBe("no-cache");
    // Service Workers (W3C) section 6.5: the widest scope a worker may ask for.
    expect(worker.headers.get("service-worker-allowed")).toBe("/");
    expect(worker.headers.get("content-security-policy")).toContain("worker-src 'self'");
    const manifest = await fetch(`${dashboard.url}/manifest.webmanifest`);
    expect(manifest.headers.get("content-type")).toContain("application/manifest+json");
    expect(manifest.headers.get("cache-control")).toBe("no-cache");
  });

  it("keeps hashed files for ever, packs them, and gives out nothing else of the disk", async () => {
    const dashboard = await aDashboard({ pagesDir: somePages() });
    const script = await fetch(`${dashboard.url}/assets/main-abc.js`);
    expect(script.headers.get("content-type")).toContain("text/javascript");
    expect(script.headers.get("cache-control")).toContain("immutable");
    expect(script.headers.get("content-encoding")).toBe("gzip");
    expect(await script.text()).toBe("export {};");
    for (const path of ["/.vite/manifest.json", "/assets/../../etc/hostname", "/%2e%2e/config.ts"])
      expect((await fetch(dashboard.url + path)).status).toBe(404);
  });
});
