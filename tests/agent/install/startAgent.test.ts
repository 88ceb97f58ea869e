import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { expect, test } from "vitest";

/** The script is not run here: there is no cmd.exe on the machines that run these tests. */
const text = readFileSync(
  resolve(import.meta.dirname, "../../../agent/install/windows/start-agent.cmd"),
  "latin1",
);

test("every line ends as cmd.exe wants it, in plain ASCII", () => {
  expect(text).toMatch(/^(?:[\x20-\x7e]*\r\n)+$/);
});

test("it jumps only to labels that are there", () => {
  const labels = [...text.matchAll(/^:(\w+)\r$/gm)].map(([, label]) => label);
  const jumps = [...text.matchAll(/^goto (\w+)\r$/gm)].map(([, label]) => label);
  expect(jumps).toEqual(["start"]);
  expect(labels).toEqual(expect.arrayContaining(jumps));
});
