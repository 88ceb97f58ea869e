import { describe, expect, it } from "vitest";
import { openHeatReplay, type HeatAnswer } from "../../../dashboard/replay/replayHeat.ts";
import { replayLines } from "../../../dashboard/replay/replayStream.ts";

const opening = { bearingDeg: 270, widthM: 0.8, heightM: 1.9, sillM: 0 };
const site = {
  ...{ kind: "site", lat: 40, lon: -105, limitC: 29.5, openings: [opening] },
  printer: { depthM: 1.2, rightM: 0, heightM: 1 },
};
const at = (minutes: number) => new Date(Date.UTC(2026, 5, 6, 17) + minutes * 60_000).toISOString();
const temp = (minutes: number, insideC: number | null, outsideC: number | null = null) => ({
  ...{ kind: "temp", at: at(minutes), insideC, outsideC },
});
const ask = (minutes: number) => ({ kind: "ask", at: at(minutes) });
const hour = Array.from({ length: 60 }, (_, minute) => temp(minute, 24 + 0.05 * minute, 22));

/** What a whole replay says of these lines; text is taken as it is. */
async function replayed(...lines: readonly unknown[]) {
  const [said, complained]: [string[], string[]] = [[], []];
  // eslint-disable-next-line @typescript-eslint/require-await -- the lines are there already
  async function* stream() {
    for (const line of lines) yield typeof line === "string" ? line : JSON.stringify(line);
  }
  const isGood = await replayLines(stream(), openHeatReplay(), {
    stdout: { write: (text) => said.push(text) },
    stderr: { write: (text) => complained.push(text) },
  });
  return { isGood, answers: said.map((text) => JSON.parse(text) as HeatAnswer), complained };
}

describe("a replay of an afternoon's temperatures", () => {
  it("answers each ask with one line of the documented shape", async () => {
    const { isGood, answers, complained } = await replayed(site, ...hour, ask(60));
    expect({ isGood, complained }).toEqual({ isGood: true, complained: [] });
    const [answer] = answers;
    expect(Object.keys(answer!)).toEqual(["at", "forecast", "crossChance60"]);
    expect(answer!.at).toBe(at(60));
    expect(answer!.forecast.map(({ minutes }) => minutes)).toEqual([15, 30, 60]);
    for (const { p10, p50, p90 } of answer!.forecast) {
      expect(p10).toBeLessThan(p50!);
      expect(p50).toBeLessThan(p90!);
    }
    expect(answer!.crossChance60).toBeGreaterThan(0);
    expect(answer!.crossChance60).toBeLessThan(1);
  });

  it("starts afresh with each site", async () => {
    const once = await replayed(site, ...hour, ask(60));
    const again = await replayed(site, temp(-90, 40), temp(-80, 41), site, ...hour, ask(60));
    expect(again.answers).toEqual(once.answers);
  });

  it("gives the same answers when more is asked in between", async () => {
    const often = await replayed(site, ...hour.flatMap((line) => [line, { ...line, kind: "ask" }]), ask(60));
    const once = await replayed(site, ...hour, ask(60));
    expect(often.answers.at(-1)).toEqual(once.answers[0]);
  });

  it("answers with a wide band after one reading and with nulls before it, and marks both", async () => {
    const { answers } = await replayed(site, ask(0), temp(1, 24), ask(1));
    expect(answers.map(({ notEnoughData }) => notEnoughData)).toEqual([true, true]);
    expect(answers[0]!.forecast[0]).toEqual({ minutes: 15, p10: null, p50: null, p90: null });
    const [{ p10, p90 } = { p10: 0, p90: 0 }] = answers[1]!.forecast;
    expect(p90! - p10!).toBeGreaterThan(2);
  });

  it("takes the same instant in another zone, an outside that is never known, and a site without limit or openings", async () => {
    const there = hour.map((line) => ({ ...line, at: line.at.replace("Z", "+00:00"), outsideC: null }));
    const bare = { kind: "site", lat: 40, lon: -105 };
    const { isGood, answers } = await replayed(bare, ...there, ask(60));
    expect(isGood).toBe(true);
    expect(answers[0]!.crossChance60).toBeNull();
    expect(answers[0]!.forecast[0]!.p50).toBeGreaterThan(26);
  });

  it("leaves out 85 C, Fahrenheit and readings out of order with a remark and no fault", async () => {
    const lines = [
      ...hour.slice(0, 30),
      temp(30, 85),
      temp(31, 78),
      temp(12, 24),
      temp(32, null),
      ...hour.slice(33),
    ];
    const { isGood, complained, answers } = await replayed(site, ...lines, ask(60));
    expect(isGood).toBe(true);
    expect(complained).toHaveLength(3);
    expect(complained[0]).toContain('line 32: field "insideC" is 85: is what a thermometer says');
    expect(complained[1]).toContain("no air temperature in Celsius");
    expect(complained[2]).toContain("comes after a later one");
    expect(answers).toHaveLength(1);
  });

  it("leaves out kinds it does not know, with a warning and no fault", async () => {
    const { isGood, complained } = await replayed(site, { kind: "humidity", pct: 60 }, ...hour);
    expect(isGood).toBe(true);
    expect(complained).toEqual(['replay: line 2: kind "humidity" is not known; the line is left out\n']);
  });
});

describe("a replay of temperatures that is wrong", () => {
  const withOpening = (changes: object) => ({ ...site, openings: [{ ...opening, ...changes }] });
  it.each([
    [[ask(0)], 'line 1: field "kind" is "ask": no site came before it'],
    [[temp(0, 24)], 'line 1: field "kind" is "temp": no site came before it'],
    [["{ not json"], "line 1: not JSON: { not json"],
    [[withOpening({ bearingDeg: 725 })], 'line 1: field "openings.0.bearingDeg" is 725: notABearing'],
    [[withOpening({ widthM: 80 })], 'line 1: field "openings.0.widthM" is 80: sizeOutOfRange'],
    [[{ ...site, printer: { depthM: 0, rightM: 0, heightM: 1 } }], 'field "printer.depthM" is 0'],
    [[{ ...site, lat: 91 }], 'line 1: field "lat" is 91'],
    [[site, { kind: "temp", at: at(0) }], 'line 2: field "insideC" is missing'],
    [[site, { ...temp(0, 24), at: "noon" }], 'line 2: field "at" is "noon"'],
    [[site, { ...temp(0, 24), outsideC: "warm" }], 'line 2: field "outsideC" is "warm"'],
  ])("names line and field, and goes on", async (lines, complaint) => {
    const { isGood, complained, answers } = await replayed(...lines, site, temp(0, 24), ask(1));
    expect(isGood).toBe(false);
    expect(complained[0]).toContain(complaint);
    expect(answers).toHaveLength(1);
  });

  it("gives the lines after a faulty site to no booth", async () => {
    const { answers, complained } = await replayed(site, { ...site, lon: 181 }, temp(0, 24), ask(1));
    expect(answers).toEqual([]);
    expect(complained).toHaveLength(3);
  });
});
