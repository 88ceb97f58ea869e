import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { addBooth, anOwner, pairAgent } from "../../support/aDashboard.ts";
import { firstListening, listening, startDashboard } from "../../support/aDashboardProcess.ts";
import { aGreetedLink, aLinkClient, sentSession, type ALinkClient } from "../../support/aLinkClient.ts";
import { freePort } from "../../support/freePort.ts";
import { storedItems } from "../../support/readStore.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { until } from "../../support/until.ts";

const bootId = "boot-1";
const batchItems = 5;

describe("the dashboard as a process", () => {
  it("stops cleanly on a signal: links are told, and another may have its folder", async () => {
    const dataDir = scratchFolder();
    const running = startDashboard("run", "--data", dataDir, "--port", "0");
    const place = await firstListening(running);
    expect(place.firstRunUrl).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/first-run#code=/);
    const api = await anOwner(place);
    const token = await pairAgent(api, await addBooth(api));
    const link = await aGreetedLink(place.url, token);
    const ending = running.stop(30_000);
    // Source: RFC 6455 section 7.4.1, 1001: an endpoint is going away, such as a server going down.
    expect(await link.closed()).toBe(1001);
    expect(await ending).toEqual({ code: 0, signal: null });
    const next = startDashboard("run", "--data", dataDir, "--port", "0");
    await listening(next);
    expect(next.lastLines(10).join("\n")).not.toContain("first-run");
    const written = [...running.lastLines(400), ...next.lastLines(400)].join("\n");
    expect(written).not.toContain(token);
  }, 120_000);

  it("says which port is taken, and which folder is in use", async () => {
    const dataDir = scratchFolder();
    const first = startDashboard("run", "--data", dataDir, "--port", "0");
    const port = new URL(await listening(first)).port;
    const onPort = startDashboard("run", "--data", scratchFolder(), "--port", port);
    expect(await onPort.ended).toEqual({ code: 1, signal: null });
    expect(onPort.lastLines(5).join("\n")).toContain(`Port ${port} on 127.0.0.1 is taken`);
    const onFolder = startDashboard("run", "--data", dataDir, "--port", "0");
    expect(await onFolder.ended).toEqual({ code: 1, signal: null });
    expect(onFolder.lastLines(5).join("\n")).toContain(`on the data folder ${dataDir}`);
    expect(first.isRunning()).toBe(true);
  }, 120_000);

  it("says that its folder cannot be used, and why", async () => {
    const file = join(scratchFolder(), "a-file");
    writeFileSync(file, "");
    const running = startDashboard("run", "--data", join(file, "below"), "--port", "0");
    expect(await running.ended).toEqual({ code: 1, signal: null });
    expect(running.lastLines(3).join("\n")).toContain(
      `The data folder ${join(file, "below")} cannot be used`,
    );
  }, 60_000);

  it("[I4] killed in mid-stream again and again, it loses nothing that it acknowledged and doubles nothing", async () => {
    const dataDir = scratchFolder();
    const port = String(await freePort());
    let running = startDashboard("run", "--data", dataDir, "--port", port);
    const place = await firstListening(running);
    const api = await anOwner(place);
    const token = await pairAgent(api, await addBooth(api));
    let acked = 0;
    for (let kill = 1; kill <= 3; kill++) {
      const link = await aLinkClient(place.url, token);
      link.greet();
      const stored =
        (await link.next("welcome")).stored.find((boot) => boot.bootId === bootId)?.throughSeq ?? 0;
      expect(stored).toBeGreaterThanOrEqual(acked);
      const sending = sendUntilClosed(link, stored);
      await until(() => lastAck(link) >= stored + 20 * batchItems, "some of it to be acknowledged");
      await running.kill();
      await link.closed();
      const sent = await sending;
      acked = lastAck(link);
      expect(sent).toBeGreaterThan(acked);
      running = startDashboard("run", "--data", dataDir, "--port", port);
      await listening(running);
    }
    expect((await running.stop(30_000)).code).toBe(0);
    const seqs = storedItems(dataDir).map(({ seq }) => seq);
    expect(seqs.length).toBeGreaterThanOrEqual(acked);
    expect(seqs).toEqual(Array.from({ length: seqs.length }, (_, at) => at + 1));
  }, 240_000);
});

/** Sends batches without waiting for their acks until the link is gone; gives the last number sent. */
async function sendUntilClosed(link: ALinkClient, stored: number): Promise<number> {
  let afterSeq = stored;
  while (link.closedWith() === null) {
    const items = Array.from({ length: batchItems }, (_, at) => sentSession(afterSeq + at + 1));
    link.batch(bootId, afterSeq, items);
    afterSeq += batchItems;
    await new Promise((resolve) => setImmediate(resolve));
  }
  return afterSeq;
}

function lastAck(link: ALinkClient): number {
  return link.frames.reduce((last, frame) => (frame.kind === "ack" ? frame.throughSeq : last), 0);
}
