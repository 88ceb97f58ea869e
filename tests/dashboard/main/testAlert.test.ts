import { describe, expect, it } from "vitest";
import * as z from "zod";
import { readConfig } from "../../../dashboard/config.ts";
import { testAlert } from "../../../dashboard/testAlert.ts";
import { aDashboard, anOwner, owner } from "../../support/aDashboard.ts";
import { aReceiver, type Answering } from "../../support/aReceiver.ts";
import { freePort } from "../../support/freePort.ts";

/** The command against a running dashboard whose owner has a webhook that answers so; null: has no way at all. */
async function tried(answering: Answering | null, over: { password?: string; url?: string } = {}) {
  const dashboard = await aDashboard();
  const api = await anOwner(dashboard);
  if (answering !== null) {
    const { url } = await aReceiver(answering);
    await api.post("/api/reaches", { way: "webhook", label: "office", body: { url } }, z.unknown());
  }
  const lines: string[] = [];
  const code = await testAlert({
    ...{ url: dashboard.url, ...owner, wait: 2, ...over },
    say: (line) => void lines.push(line),
    pause: (ms) => new Promise((resolve) => setTimeout(resolve, ms / 5)),
  });
  return { code, lines };
}

describe("the command test-alert", () => {
  it("succeeds when a way took it, and says which", async () => {
    expect(await tried(201)).toEqual({
      ...{ code: 0, lines: ["webhook (office): taken by its server; whether it arrived is not known"] },
    });
  });

  it("fails when none did, and says why", async () => {
    expect(await tried(500)).toEqual({ code: 1, lines: ["webhook (office): not taken: it answered 500"] });
    expect(await tried(null)).toEqual({
      ...{ code: 1, lines: ["There is no way to reach you yet: choose one under Set-up."] },
    });
  });

  it("says what kept it from trying", async () => {
    expect(await tried(201, { password: "wrong" })).toEqual({
      ...{ code: 2, lines: ["Name and password do not belong together."] },
    });
    const url = `http://127.0.0.1:${await freePort()}`;
    const { code, lines } = await tried(201, { url });
    expect([code, lines[0]]).toEqual([2, expect.stringContaining(`${url} cannot be reached`)]);
  });

  it("is told where and as whom", () => {
    expect(readConfig(["test-alert", "--url", "http://127.0.0.1:8460/", "--name", "Ama"])).toEqual({
      test: { url: "http://127.0.0.1:8460", name: "Ama", wait: 30 },
    });
    for (const [args, words] of [
      [["test-alert", "--name", "Ama"], "--url is missing"],
      [["test-alert", "--url", "here", "--name", "Ama"], '--url "here"'],
      [["test-alert", "--url", "http://x.example"], "--name is missing"],
      [["test-alert", "--data", "here"], "--data"],
    ] as const)
      expect(readConfig(args)).toMatchObject({ sentence: expect.stringContaining(words) as string });
  });
});
