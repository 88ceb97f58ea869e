import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openLog } from "../../../agent/log.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";

/** Everything that stands in the log's files, and how many there are. */
function written(folder: string): { text: string; files: number } {
  const names = readdirSync(folder);
  return {
    text: names.map((name) => readFileSync(join(folder, name), "utf8")).join(""),
    files: names.length,
  };
}

describe("openLog", () => {
  it("hides tokens, codes and passwords wherever they stand", async () => {
    const folder = scratchFolder();
    const log = await openLog({ level: "info", file: join(folder, "agent.log"), maxMb: 1, keepFiles: 2 });
    log.info({ token: "secret-1", signIn: { token: "secret-2" }, a: { b: { password: "secret-3" } } }, "one");
    log.warn({ code: "secret-4", headers: { authorization: "secret-5" } }, "two");
    await expect.poll(() => written(folder).text).toContain("two");
    expect(written(folder).text).not.toContain("secret");
    expect(written(folder).text.match(/\(hidden\)/g)).toHaveLength(5);
  });

  it("goes on to another file when one is full, and keeps only so many", async () => {
    const folder = scratchFolder();
    const log = await openLog({ level: "info", file: join(folder, "agent.log"), maxMb: 0.1, keepFiles: 2 });
    for (let part = 0; part < 8; part++) {
      for (let i = 0; i < 100; i++) log.info({ words: "x".repeat(1_000) }, "filling");
      // Writing is asynchronous: the file must have grown before it can be found full.
      const line = `part ${part} is through`;
      log.info({}, line);
      await expect.poll(() => written(folder).text).toContain(line);
    }
    await expect.poll(() => written(folder).files).toBe(3);
  });
});
