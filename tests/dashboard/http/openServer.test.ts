import { copyFileSync, utimesSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import * as z from "zod";
import { startProcess } from "../../../seeds/startProcess.ts";
import { WebSocket } from "ws";
import { addBooth, aDashboard, anOwner, owner } from "../../support/aDashboard.ts";
import { anAuthority } from "../../support/anAuthority.ts";
import { askTls } from "../../support/askTls.ts";
import { handTime } from "../../support/handTime.ts";
import { needsTool } from "../../support/needsTool.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { until } from "../../support/until.ts";

const names = ["DNS:localhost", "IP:127.0.0.1"];
const hourMs = 3_600_000;
const agentBundle = resolve(import.meta.dirname, "../../../agent/dist/agent.mjs");

/** Two files that a test may write over, as whoever renews a certificate does. */
function replaceable() {
  const folder = scratchFolder();
  const files = { certFile: join(folder, "chain.pem"), keyFile: join(folder, "key.pem") };
  let stampS = 1_000;
  const put = (from: typeof files) => {
    copyFileSync(from.certFile, files.certFile);
    copyFileSync(from.keyFile, files.keyFile);
    // Two writes may fall into one tick of the disk's clock.
    stampS += 10;
    utimesSync(files.certFile, stampS, stampS);
  };
  return { files, put };
}

needsTool("openssl", "apt-get install openssl")("a dashboard with its own certificate", () => {
  it("speaks TLS to those who trust its authority, and to nobody else", async () => {
    const authority = anAuthority();
    const dashboard = await aDashboard({ tls: authority.issue(names) });
    expect(dashboard.url).toMatch(/^https:\/\/127\.0\.0\.1:\d+$/);
    expect(dashboard.firstRunUrl).toMatch(/^https:/);
    const { status } = await askTls(`${dashboard.url}/api/me`, authority.ca);
    expect(status).toBe(200);
    await expect(askTls(`${dashboard.url}/api/me`, anAuthority().ca)).rejects.toThrow(/certificate/);
    await expect(fetch(dashboard.url.replace("https", "http"))).rejects.toThrow();
  });

  // RFC 6265 section 4.1.2.5 (Secure); RFC 6797 section 8.1: a browser remembers it for the whole host.
  it("sends its cookie over TLS only; that the name is for TLS only it says where the name is meant", async () => {
    const authority = anAuthority();
    const plain = await aDashboard();
    await anOwner(plain);
    await plain.close();
    for (const origin of [null, "https://booths.example"]) {
      const dashboard = await aDashboard({ dataDir: plain.dataDir, tls: authority.issue(names), origin });
      const { headers } = await askTls(`${dashboard.url}/api/sign-in`, authority.ca, { body: owner });
      expect(headers["set-cookie"]?.join()).toContain("; Secure");
      expect("strict-transport-security" in headers).toBe(origin !== null);
      await dashboard.close();
    }
  });

  it("lets live sockets and agents in by the same port", async () => {
    const authority = anAuthority();
    const { url } = await aDashboard({ tls: authority.issue(names) });
    for (const path of ["/live", "/link"]) {
      const socket = new WebSocket(url.replace("https", "wss") + path, { ca: authority.ca, origin: url });
      const status = await new Promise((seen) =>
        socket.on("unexpected-response", (_request, response) => seen(response.statusCode)),
      );
      // 401: it was reached, and wants a sign-in or a token.
      expect(status).toBe(401);
    }
  });

  it("takes a renewed certificate into use by itself, and leaves one that is broken", async () => {
    const authority = anAuthority();
    const { files, put } = replaceable();
    put(authority.issue(names));
    const time = handTime();
    const dashboard = await aDashboard({ tls: files, clock: time.clock });
    const serial = async () => (await askTls(`${dashboard.url}/api/me`, authority.ca)).serial;
    const first = await serial();
    put(authority.issue(names));
    await dashboard.tick();
    expect(await serial()).toBe(first);
    time.pass(hourMs);
    await dashboard.tick();
    const second = await serial();
    expect(second).not.toBe(first);
    writeFileSync(files.certFile, "no certificate");
    time.pass(hourMs);
    await dashboard.tick();
    expect(await serial()).toBe(second);
    expect(dashboard.lines.join()).toContain("a renewed certificate cannot be used");
  });

  it("says which file is missing, and that two do not belong together", async () => {
    const authority = anAuthority();
    const [one, other] = [authority.issue(names), authority.issue(names)];
    const missing = aDashboard({ tls: { ...one, certFile: "/nowhere/chain.pem" } });
    await expect(missing).rejects.toThrow("/nowhere/chain.pem cannot be read");
    const mixed = aDashboard({ tls: { certFile: one.certFile, keyFile: other.keyFile } });
    await expect(mixed).rejects.toThrow(`${one.certFile} and ${other.keyFile} make no certificate`);
  });

  it("is reached by a real agent that was told of the authority", async () => {
    const authority = anAuthority();
    const plain = await aDashboard();
    const api = await anOwner(plain);
    const boothId = await addBooth(api, "Willow");
    const path = `/api/booths/${boothId}/pairing-codes`;
    const { code } = await api.post(path, {}, z.object({ code: z.string() }));
    await plain.close();
    const { url } = await aDashboard({ dataDir: plain.dataDir, tls: authority.issue(names) });
    const folder = scratchFolder();
    writeFileSync(join(folder, "agent.yaml"), JSON.stringify({ dataFolder: "data", dashboard: url }));
    const agent = (...args: string[]) => {
      const running = startProcess({
        ...{ name: "agent", command: process.execPath, cwd: folder },
        args: [agentBundle, ...args, "--config", "agent.yaml"],
        env: { NODE_EXTRA_CA_CERTS: authority.caFile },
      });
      onTestFinished(async () => void (await running.kill()));
      return running;
    };
    const pairing = agent("pair", "--code", ...code.split(" "));
    expect((await pairing.ended).code, pairing.lastLines(20).join("\n")).toBe(0);
    agent("run");
    const booths = async () =>
      JSON.stringify(
        (await askTls(`${url}/api/booths`, authority.ca, { headers: { cookie: api.cookie() } })).body,
      );
    await until(async () => (await booths()).includes('"isLinked":true'), "the agent to be linked", 30_000);
  }, 60_000);
});

describe("a dashboard without a certificate", () => {
  it("speaks plain HTTP", async () => {
    const { url } = await aDashboard();
    expect(url).toMatch(/^http:/);
    expect((await fetch(`${url}/api/me`)).status).toBe(200);
  });
});
