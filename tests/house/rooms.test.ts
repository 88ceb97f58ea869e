import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { ESLint } from "eslint";
import { describe, expect, it } from "vitest";
import * as z from "zod";

const top = resolve(import.meta.dirname, "../..");
const roomTable = z.record(z.string(), z.array(z.string()));
const lintTables = z
  .object({ agentRooms: roomTable, dashboardRooms: roomTable })
  .parse(await import(join(top, "eslint.config.js")));
const guide = readFileSync(join(top, "DEVELOPERS.md"), "utf8");

/** Rows of the guide's table of rooms: `| dashboard/http | ingest, live, store | ... |`. */
function roomsInGuide(): Map<string, string[]> {
  const rows = guide.matchAll(/^\| `([a-z]+\/[a-z]+)` +\| ([^|]*)\|/gm);
  return new Map(
    [...rows].map(([, room = "", allowed = ""]) => [
      room,
      allowed
        .split(",")
        .map((word) => word.trim())
        .filter((word) => word !== "" && word !== "none")
        .sort(),
    ]),
  );
}

function roomsInLint(): Map<string, string[]> {
  const rows = Object.entries({ agent: lintTables.agentRooms, dashboard: lintTables.dashboardRooms }).flatMap(
    ([side, rooms]) =>
      Object.entries(rooms).map(([room, allowed]): [string, string[]] => [
        `${side}/${room}`,
        [...allowed].sort(),
      ]),
  );
  return new Map(rows);
}

function roomsOnDisk(): string[] {
  return ["agent", "dashboard"].flatMap((side) =>
    readdirSync(join(top, side), { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && !["dist", "node_modules"].includes(entry.name))
      .map((entry) => `${side}/${entry.name}`),
  );
}

async function rulesBroken(filePath: string, code: string): Promise<(string | null)[]> {
  const eslint = new ESLint({ cwd: top });
  const [result] = await eslint.lintText(code, { filePath: join(top, filePath) });
  return (result?.messages ?? []).map((message) => message.ruleId);
}

/** The linter loads the whole project's types first. */
const lintMs = 120_000;

describe("the rooms of the house", () => {
  it("are the same in the guide, in the lint rules and on disk", () => {
    expect(roomsInGuide()).toEqual(roomsInLint());
    expect([...roomsInLint().keys()].sort()).toEqual(roomsOnDisk().sort());
  });

  it.each([
    ["dashboard/forecast/outlook.ts", "../store/openStore.ts"],
    ["dashboard/booth/boothState.ts", "../alerts/rules.ts"],
    ["agent/main.ts", "../dashboard/main.ts"],
    ["dashboard/main.ts", "../agent/main.ts"],
    ["shared-types/item.ts", "../agent/main.ts"],
  ])(
    "%s may not import %s",
    async (filePath, forbidden) => {
      const broken = await rulesBroken(filePath, `import * as other from "${forbidden}";\nother;\n`);
      expect(broken).toContain("import-x/no-restricted-paths");
    },
    lintMs,
  );

  it("keeps clock and dice out of the pure rooms", async () => {
    const broken = await rulesBroken(
      "dashboard/forecast/outlook.ts",
      "export const now = [Date.now(), Math.random(), new Date()];\n",
    );
    expect(broken.filter((rule) => rule?.startsWith("no-restricted"))).toHaveLength(3);
  });
});
