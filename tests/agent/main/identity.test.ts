import { readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readAgentId, readCredentials, writeCredentials } from "../../../agent/identity.ts";
import { agentVersion } from "../../../agent/version.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";

const credentials = {
  agentId: "agent-1",
  token: "a-token-of-more-than-20-characters",
  boothId: "booth-1",
  boothName: "Willow",
  dashboard: "https://booths.example",
};

describe("the agent's identity", () => {
  it("is made once for a data folder", () => {
    const folder = join(scratchFolder(), "data");
    let made = 0;
    const newId = () => `agent-${(made += 1)}`;
    expect([readAgentId(folder, newId), readAgentId(folder, newId)]).toEqual(["agent-1", "agent-1"]);
  });

  it("has no credentials before it is paired", () => {
    expect(readCredentials(scratchFolder())).toBeNull();
  });

  it("keeps credentials for its own user only", () => {
    const folder = scratchFolder();
    writeCredentials(folder, credentials);
    expect(readCredentials(folder)).toEqual(credentials);
    if (process.platform !== "win32")
      expect(statSync(join(folder, "credentials.json")).mode & 0o777).toBe(0o600);
  });

  it("names a damaged file and what to do about it", () => {
    const folder = scratchFolder();
    const path = join(folder, "credentials.json");
    writeFileSync(path, "{");
    expect(() => readCredentials(folder)).toThrow(`${path} is damaged: remove it and pair this agent again`);
  });

  it("has the version of its package", () => {
    const text = readFileSync(join(import.meta.dirname, "../../../agent/package.json"), "utf8");
    expect(JSON.parse(text)).toMatchObject({ version: agentVersion });
  });
});
