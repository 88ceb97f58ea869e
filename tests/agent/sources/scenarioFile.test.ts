import { describe, expect, it } from "vitest";
import { readScenario } from "../../../agent/sources/scenarioFile.ts";

const header = '{"scenario":"A windy evening","lengthMs":60000}';
const roll = '{"class":"fact","kind":"rollFitted","sheets":400,"by":null}';
const print = '{"class":"fact","kind":"print","copies":2,"pitches":2,"queue":null}';
const read = (...lines: string[]) => readScenario("evening.ndjson", [header, ...lines].join("\n"));

describe("readScenario", () => {
  it("reads items and holds with their times and lines", () => {
    const day = read(`{"atMs":0,"item":${roll}}`, "", '{"atMs":5000,"holdLink":2000}');
    expect(day).toEqual({
      name: "A windy evening",
      lengthMs: 60_000,
      entries: [
        { line: 2, atMs: 0, source: "scenario", item: JSON.parse(roll) as unknown },
        { line: 4, atMs: 5_000, holdMs: 2_000 },
      ],
    });
  });

  it("takes the source that an item names", () => {
    const day = read(`{"atMs":0,"item":${roll.replace("{", '{"source":"printer",')}}`);
    expect(day.entries[0]).toMatchObject({ source: "printer" });
  });

  it("makes ids of name and line, the same at every reading, and keeps those that are there", () => {
    const withId = print.replace("{", '{"printId":"job-7",');
    const lines = [`{"atMs":0,"item":${print}}`, `{"atMs":1,"item":${withId}}`];
    const ids = () =>
      read(...lines).entries.map((entry) => "item" in entry && "printId" in entry.item && entry.item.printId);
    expect(ids()).toEqual(["A windy evening-2", "job-7"]);
    expect(ids()).toEqual(ids());
  });

  it.each([
    ["nothing", "", "evening.ndjson: is empty"],
    ["no header", `{"atMs":0,"item":${roll}}`, "evening.ndjson line 1, scenario: "],
    ["no JSON", `${header}\n{"atMs":`, "evening.ndjson line 2: is not JSON"],
    ["neither item nor hold", `${header}\n{"atMs":0}`, "evening.ndjson line 2, item: "],
    [
      "a time before the line above",
      `${header}\n{"atMs":9,"holdLink":1}\n{"atMs":8,"holdLink":1}`,
      "evening.ndjson line 3: atMs 8 is before the line above it",
    ],
    [
      "a wrong field",
      `${header}\n\n{"atMs":0,"item":${roll.replace("400", '"many"')}}`,
      "evening.ndjson line 3, item.sheets: ",
    ],
    [
      "an unknown kind",
      `${header}\n{"atMs":0,"item":{"class":"fact","kind":"balloon"}}`,
      "evening.ndjson line 2, item.kind: ",
    ],
    ["a negative time", `${header}\n{"atMs":-1,"holdLink":1}`, "evening.ndjson line 2, atMs: "],
  ])("names file, line and field of %s", (_, text, words) => {
    expect(() => readScenario("evening.ndjson", text)).toThrow(words);
  });
});
