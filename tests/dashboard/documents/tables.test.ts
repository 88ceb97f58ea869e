import { spawnSync } from "node:child_process";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { readLocalTime, writeLocalTime } from "../../../dashboard/documents/tables/localTime.ts";
import { readTable } from "../../../dashboard/documents/tables/readTable.ts";
import { writeTable } from "../../../dashboard/documents/tables/writeTable.ts";
import { needsTool } from "../../support/needsTool.ts";

const mark = "\uFEFF";

/** The rows of a table with the columns a and b, by line: `[2, "1", "x"]`. */
async function rows(text: string): Promise<(string | number)[][]> {
  const read = await readTable(text, ["a", "b"], ["a", "b"]);
  return read.rows.map(({ line, cells }) => [line, ...cells.values()]);
}

const problems = async (text: string) => (await readTable(text, ["a", "b"], ["a", "b"])).problems;

describe("a table that is written", () => {
  it("has CRLF, doubled quotes, quotes around commas and line ends, and keeps blanks", () => {
    // RFC 4180 section 2, rules 1, 3, 4, 6 and 7.
    const rows = [
      ["a", "b"],
      ['say "aye"', " x "],
      ["1,5", "two\nlines"],
      ["one\rmore", "and\r\nthe last"],
      [null, 3],
    ];
    expect(writeTable(rows)).toBe(
      `${mark}a,b\r\n"say ""aye""", x \r\n"1,5","two\nlines"\r\n"one\rmore","and\r\nthe last"\r\n,3\r\n`,
    );
  });

  // RFC 4180 section 2: the examples beside rules 1, 5, 6 and 7, each with the line end that rule 1 allows the last.
  it.each([
    [
      [
        ["aaa", "bbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
      "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
    ],
    [
      [
        ["aaa", "b\r\nbb", "ccc"],
        ["zzz", "yyy", "xxx"],
      ],
      'aaa,"b\r\nbb",ccc\r\nzzz,yyy,xxx\r\n',
    ],
    [[["aaa", 'b"bb', "ccc"]], 'aaa,"b""bb",ccc\r\n'],
  ])("writes %j as the standard does", (rows, text) => {
    expect(writeTable(rows)).toBe(mark + text);
  });

  // OWASP, CSV Injection: cells that begin with these are run as formulas (from memory).
  it.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\uFF1D1", "'=1"])(
    "runs no formula from %j",
    (cell) => {
      const [, line = ""] = writeTable([["a"], [cell]]).split(/\r\n(?=.)/);
      expect(line.replace(/^"/, "").startsWith("'")).toBe(true);
    },
  );

  it("leaves a number below nothing a number", () => {
    expect(writeTable([["a"], [-0.12]])).toBe(`${mark}a\r\n-0.12\r\n`);
  });

  const anyCell = fc.oneof(
    fc.string({ unit: "grapheme" }),
    fc
      .tuple(fc.constantFrom("'", "=", "+", "-", "@", "\t", ",", ";", '"', "\n", "\r", "''="), fc.string())
      .map((parts) => parts.join("")),
  );
  const anyRows = fc.array(fc.tuple(anyCell, anyCell), { minLength: 1, maxLength: 6 });

  it("is read as it was, whatever stands in its cells", async () => {
    await fc.assert(
      fc.asyncProperty(anyRows, async (table) => {
        // Blanks around a cell are a slip of the hand, and a row of nothing is none.
        const trimmed = table
          .map((row) => row.map((cell) => cell.trim()))
          .filter((row) => row.join("") !== "");
        const read = await readTable(writeTable([["a", "b"], ...trimmed]), ["a", "b"], ["a", "b"]);
        expect(read.problems).toEqual([]);
        expect(read.rows.map(({ cells }) => [...cells.values()])).toEqual(trimmed);
      }),
    );
  });

  // Python's csv module reads by RFC 4180 with no code of ours or of the writer's library.
  needsTool(["python3"], "apt-get install python3")("in another program", () => {
    it("has the same cells, with ' before what would be a formula", () => {
      const script =
        "import csv,io,json,sys;t=sys.stdin.buffer.read().decode('utf-8-sig');" +
        "print(json.dumps(list(csv.reader(io.StringIO(t,newline=''),strict=True))))";
      const table = fc.sample(anyRows, { numRuns: 60, seed: 7 }).flat();
      const read = spawnSync("python3", ["-c", script], { input: writeTable(table), encoding: "utf8" });
      const begins = /^'*[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/;
      const guarded = table.map((row) => row.map((cell) => (begins.test(cell) ? `'${cell}` : cell)));
      expect(JSON.parse(read.stdout)).toEqual(guarded);
    });
  });
});

describe("a table that is read", () => {
  it.each([
    ["commas", "a,b\n1,x\n"],
    ["semicolons", "a;b\r\n1;x\r\n"],
    ["tabs", "a\tb\r1\tx\r"],
    ["a byte-order mark", `${mark}a,b\n1,x`],
    ["quotes and other capitals", '"A";"B"\n"1";"x"\n'],
    ["columns in another order, and one more", "c,b,a\n9,x,1\n"],
    ["empty lines", "a,b\n\n1,x\n\n,\n"],
  ])("may have %s", async (_, text) => {
    expect((await rows(text)).map(([, ...cells]) => cells)).toEqual([["1", "x"]]);
  });

  it("takes the sign of its first line for all, so that commas may stand in the cells", async () => {
    expect(await rows("a;b\n1,5;x,y\n")).toEqual([[2, "1,5", "x,y"]]);
  });

  it("says at which line of the file a row begins, also after cells of several lines", async () => {
    expect(await rows('a,b\n1,"x\ny\nz"\n\n2,w\n')).toEqual([
      [2, "1", "x\ny\nz"],
      [6, "2", "w"],
    ]);
  });

  it("keeps every character of a long cell, wherever the file is cut to be read", async () => {
    for (const before of ["", "x", "xy", "xyz"]) {
      const long = before + "\u{1F3AA}\u00e9".repeat(20_000);
      expect(await rows(`a,b\n1,${long}\n`)).toEqual([[2, "1", long]]);
    }
  });

  it("is refused without its columns, with one of them twice, or empty", async () => {
    expect((await problems("a\n1\n"))[0]?.sentence).toContain("b is missing");
    expect((await problems("a,b,A\n1,2,3\n"))[0]?.sentence).toContain("a is there twice");
    expect((await problems(""))[0]?.sentence).toBe("The file is empty.");
  });

  it("is refused at the line where a quote is not closed or stands in the middle", async () => {
    expect((await problems('a,b\n1,"x\n'))[0]).toMatchObject({
      sentence: "A quote is opened here and not closed.",
    });
    expect((await problems('a,b\n1,x\n2,y"z\n'))[0]).toMatchObject({ line: 3 });
  });

  it("may have 50,000 rows and not one more", async () => {
    const lines = (n: number) => `a,b\n${"1,x\n".repeat(n)}`;
    expect((await readTable(lines(50_000), ["a", "b"], ["a"])).rows).toHaveLength(50_000);
    expect((await problems(lines(50_001)))[0]?.sentence).toContain("more than 50000 rows");
  });
});

describe("a time of a table", () => {
  // Clock changes of the tz database: Berlin goes forward on 2026-03-29 and back on 2026-10-25.
  it.each([
    ["2026-06-20 18:00", "Europe/Berlin", "2026-06-20T16:00:00.000Z"],
    ["2026-06-20T18:00", "America/New_York", "2026-06-20T22:00:00.000Z"],
    ["2026-06-20 9:30", "Asia/Kathmandu", "2026-06-20T03:45:00.000Z"],
    ["2026-10-25 02:30", "Europe/Berlin", "2026-10-25T00:30:00.000Z"],
    ["2026-10-25 02:30 +01:00", "Europe/Berlin", "2026-10-25T01:30:00.000Z"],
    ["2026-06-20 18:00Z", "Europe/Berlin", "2026-06-20T18:00:00.000Z"],
  ])("%s in %s is %s", (text, zone, iso) => {
    expect(readLocalTime(text, zone)).toEqual({ atMs: Date.parse(iso) });
  });

  it.each(["2026-03-29 02:30", "20/06/2026 18:00", "2026-02-30 18:00", "2026-06-20 25:00", ""])(
    "%j in Berlin is none, and says why",
    (text) => {
      expect(readLocalTime(text, "Europe/Berlin")).toHaveProperty("sentence");
    },
  );

  it("comes back as it was written, in any zone and at any minute", () => {
    const anyMinute = fc
      .integer({ min: Date.UTC(2024, 0, 1) / 60_000, max: Date.UTC(2032, 0, 1) / 60_000 })
      .map((minutes) => minutes * 60_000);
    const anyZone = fc.constantFrom(
      "Europe/Berlin",
      "America/New_York",
      "Australia/Lord_Howe",
      "Asia/Kolkata",
      "UTC",
    );
    fc.assert(
      fc.property(anyMinute, anyZone, (atMs, zone) => {
        expect(readLocalTime(writeLocalTime(atMs, zone), zone)).toEqual({ atMs });
      }),
    );
  });
});
