import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const top = resolve(import.meta.dirname, "../..");

function rulesOfTheLink(): string[] {
  const text = readFileSync(join(top, "shared-types/PROTOCOL.md"), "utf8");
  return [...text.matchAll(/^- \*\*\[([A-Z]\d+)\]\*\*/gm)].map(([, rule = ""]) => rule);
}

function testTitles(): string {
  return readdirSync(join(top, "tests"), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".test.ts"))
    .flatMap(
      (name) =>
        readFileSync(join(top, "tests", name), "utf8").match(/\b(it|test)(\.\w+)*\([^]*?["'`][^"'`]*/g) ?? [],
    )
    .join("\n");
}

describe("the rules of the link", () => {
  const titles = testTitles();
  it.each(rulesOfTheLink())("[%s] stands in the title of a test", (rule) => {
    expect(titles).toContain(`[${rule}]`);
  });
});
