import { describe, expect, it } from "vitest";
import { openReplay } from "../../../dashboard/replay/replayDemand.ts";
import { replayLines } from "../../../dashboard/replay/replayStream.ts";

const plan = {
  kind: "plan",
  start: "2026-06-06T17:00:00Z",
  end: "2026-06-06T22:00:00Z",
  guests: 120,
  pattern: "wedding",
  sheetsLoaded: 300,
  sheetsPerSession: 2,
};
const session = (at: string, sheets = 2) => ({ kind: "session", at: `2026-06-06T${at}Z`, sheets });
const ask = (at: string) => ({ kind: "ask", at: `2026-06-06T${at}Z` });

type Answer = {
  at: string;
  sheetsLeft: number;
  demandToEnd: { p10: number; p50: number; p90: number; mean: number };
  emptyAt: { p10: string | null; p50: string | null; p90: string | null };
  lastsChance: number;
};

/** What a whole replay says of these lines; text is taken as it is. */
async function replayed(...lines: readonly unknown[]) {
  const said: string[] = [];
  const complained: string[] = [];
  // eslint-disable-next-line @typescript-eslint/require-await -- the lines are there already
  async function* stream() {
    for (const line of lines) yield typeof line === "string" ? line : JSON.stringify(line);
  }
  const isGood = await replayLines(stream(), openReplay(), {
    stdout: { write: (text) => said.push(text) },
    stderr: { write: (text) => complained.push(text) },
  });
  return { isGood, answers: said.map((text) => JSON.parse(text) as Answer), complained };
}

describe("a replay of an evening", () => {
  it("answers each ask with one line, a session at its instant counted", async () => {
    const { isGood, answers, complained } = await replayed(
      plan,
      ask("17:00:00"),
      session("17:10:00"),
      session("17:30:00", 4),
      ask("17:30:00"),
    );
    expect(isGood).toBe(true);
    expect(complained).toEqual([]);
    expect(answers.map(({ sheetsLeft }) => sheetsLeft)).toEqual([300, 294]);
    for (const { demandToEnd, lastsChance } of answers) {
      expect(demandToEnd.p10).toBeLessThan(demandToEnd.p50);
      expect(demandToEnd.p50).toBeLessThan(demandToEnd.p90);
      expect(lastsChance).toBeGreaterThan(0);
      expect(lastsChance).toBeLessThan(1);
    }
  });

  it("gives the empty times in order, a null for not before the end", async () => {
    const { answers } = await replayed({ ...plan, sheetsLoaded: 100 }, ask("17:00:00"));
    const [answer] = answers;
    const times = [answer?.emptyAt.p10, answer?.emptyAt.p50, answer?.emptyAt.p90];
    const known = times.filter((time) => time !== null).map((time) => Date.parse(time ?? ""));
    expect(known).toEqual([...known].sort((a, b) => a - b));
    expect(
      times.indexOf(null) === -1 || times.slice(times.indexOf(null)).every((time) => time === null),
    ).toBe(true);
    expect(known.every((atMs) => atMs <= Date.parse(plan.end))).toBe(true);
  });

  it("counts rolls and corrections, and a correction that contradicts goes before the count", async () => {
    const { answers } = await replayed(
      { ...plan, sheetsLoaded: 20 },
      session("17:10:00", 15),
      { kind: "correct", at: "2026-06-06T17:20:00Z", sheetsLeft: 40 },
      ask("17:20:00"),
      { kind: "roll", at: "2026-06-06T17:30:00Z", sheets: 400 },
      session("17:40:00", 3),
      ask("17:45:00"),
    );
    expect(answers.map(({ sheetsLeft }) => sheetsLeft)).toEqual([40, 397]);
  });

  it("gives the same answers when more is asked in between", async () => {
    const lines = Array.from({ length: 40 }, (_, at) =>
      session(new Date(Date.UTC(2026, 5, 6, 17, 3 * (at + 1))).toISOString().slice(11, 19)),
    );
    const once = await replayed(plan, ...lines, ask("19:10:00"));
    const often = await replayed(
      plan,
      ...lines.flatMap((line) => [line, { ...line, kind: "ask" }]),
      ask("19:10:00"),
    );
    expect(often.answers.at(-1)).toEqual(once.answers[0]);
  });

  it("starts afresh with each plan, and keeps earlier evenings until those of another pattern come", async () => {
    const past = (pattern: string) => ({
      ...{ kind: "past", pattern, start: plan.start.replace("06-06", "05-30") },
      ...{ end: plan.end.replace("06-06", "05-30"), guests: 100, sessions: 300, sheets: 600 },
      bins15: Array<number>(20).fill(30),
    });
    const harvest = { ...plan, pattern: "harvest" };
    const taught = await replayed(
      past("harvest"),
      past("harvest"),
      past("harvest"),
      harvest,
      ask("17:00:00"),
    );
    const again = await replayed(
      ...[past("harvest"), past("harvest"), past("harvest"), plan, session("17:20:00"), harvest],
      ask("17:00:00"),
    );
    const other = await replayed(
      ...[1, 2, 3].map(() => past("harvest")),
      past("gala"),
      harvest,
      ask("17:00:00"),
    );
    const untaught = await replayed(harvest, ask("17:00:00"));
    expect(again.answers).toEqual(taught.answers);
    expect(taught.answers[0]?.demandToEnd.mean).toBeGreaterThan(
      2 * (untaught.answers[0]?.demandToEnd.mean ?? 0),
    );
    expect(other.answers).toEqual(untaught.answers);
  });

  it("takes an evening across a clock change by its instants", async () => {
    // Berlin's clocks go back at 01:00 UTC on 25 October 2026 (tz database).
    const night = { ...plan, start: "2026-10-24T20:00:00+02:00", end: "2026-10-25T03:30:00+01:00" };
    const { isGood, answers } = await replayed(
      night,
      { kind: "session", at: "2026-10-25T02:30:00+02:00", sheets: 2 },
      { kind: "session", at: "2026-10-25T02:10:00+01:00", sheets: 2 },
      { kind: "ask", at: "2026-10-25T02:15:00+01:00" },
    );
    expect(isGood).toBe(true);
    expect(answers[0]?.at).toBe("2026-10-25T02:15:00+01:00");
    expect(answers[0]?.sheetsLeft).toBe(296);
  });
});

describe("a replay of what is wrong", () => {
  it.each([
    [[ask("17:00:00")], 'line 1: field "kind" is "ask": no plan came before it'],
    [[session("17:00:00")], 'line 1: field "kind" is "session": no plan came before it'],
    [["{ not json"], "line 1: not JSON: { not json"],
    [[plan, { kind: "ask" }], 'line 2: field "at" is missing'],
    [[plan, session("17:10:00", -1)], 'line 2: field "sheets" is -1'],
    [[plan, { ...ask("17:00:00"), at: "17:00" }], 'line 2: field "at" is "17:00"'],
    [[{ ...plan, end: "2026-06-06T16:00:00Z" }], 'line 1: field "end"'],
    [[{ ...plan, guests: "many" }], 'line 1: field "guests" is "many"'],
  ])("names line and field, and goes on", async (lines, complaint) => {
    const { isGood, complained, answers } = await replayed(...lines, plan, ask("17:00:00"));
    expect(isGood).toBe(false);
    expect(complained[0]).toContain(complaint);
    expect(answers).toHaveLength(1);
  });

  it("gives the lines after a faulty plan to no evening", async () => {
    const { answers, complained } = await replayed(
      plan,
      { ...plan, end: plan.start },
      session("17:10:00"),
      ask("17:20:00"),
    );
    expect(answers).toEqual([]);
    expect(complained).toHaveLength(3);
  });

  it("leaves out kinds it does not know, with a warning and no fault", async () => {
    const { isGood, complained, answers } = await replayed(
      plan,
      { kind: "weather", sky: "blue" },
      ask("17:00:00"),
    );
    expect(isGood).toBe(true);
    expect(complained).toEqual(['replay: line 2: kind "weather" is not known; the line is left out\n']);
    expect(answers).toHaveLength(1);
  });

  it("stands no guests, a huge roll, sessions of the future and a crowd", async () => {
    const crowd = Array.from({ length: 10_000 }, (_, at) =>
      session(`17:10:${String((at * 0.005).toFixed(3)).padStart(6, "0")}`, 1),
    );
    const { isGood, answers } = await replayed(
      { ...plan, guests: 0, sheetsLoaded: 1_000_000_000 },
      session("21:00:00"),
      ask("17:05:00"),
      ...crowd,
      ask("17:30:00"),
    );
    expect(isGood).toBe(true);
    expect(answers.map(({ sheetsLeft }) => sheetsLeft)).toEqual([1_000_000_000, 999_990_000]);
    for (const { demandToEnd } of answers) {
      expect(Object.values(demandToEnd).every(Number.isFinite)).toBe(true);
      expect(demandToEnd.p10).toBeLessThanOrEqual(demandToEnd.p90);
    }
  });
});
