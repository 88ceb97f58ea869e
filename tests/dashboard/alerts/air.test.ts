import { describe, expect, it } from "vitest";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth } from "../../support/aBooth.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";
import { playAlerts } from "../../support/playAlerts.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const soon = aBookedTime({ openAtMs: at(60), closeAtMs: at(400) });
const trailer = aBooth({ isTrailer: true });
const air = (minute: number, insideC: number, humidityPct: number | null, sensor = "air"): StoryLine => [
  minute,
  "inside",
  { sensor, insideC, humidityPct },
];

describe("condensation", () => {
  it("is ahead for a case colder than the dew point of the room, with the wait", () => {
    // Magnus (Sonntag 1990): 20 C and 60 % have a dew point of 12.0 C; from 5 C with 40 minutes' time constant the
    // case passes 13.0 C after 40 ln(15 / 7.0) = 30.5 minutes.
    const scene = aScene(0, [air(-1, 20, 60), air(-1, 5, null, "case")], { booking: soon });
    const judged = judgedOf("condensation", scene);
    expect(judged).toMatchObject({ stands: "holds", severity: "plan", caseC: 5, waitMin: 31, since: null });
    expect("dewPointC" in judged && judged.dewPointC).toBeCloseTo(12, 0);
  });

  it("lingers until the case is past the dew point by a margin, then is over", () => {
    const standsAt = (caseC: number) =>
      judgedOf("condensation", aScene(0, [air(-1, 20, 60), air(-1, caseC, null, "case")], { booking: soon }))
        .stands;
    expect([11.5, 12.5, 13.5].map(standsAt)).toEqual(["holds", "lingers", "clear"]);
  });

  it("is known of a case without a thermometer, from one that came through the cold with it", () => {
    // Two hours at 4 C, then a room of 22 C and 55 % (dew point 12.5 C): the air is warm at once, the case is not.
    const cold = Array.from({ length: 12 }, (_, index) => air(-125 + index * 10, 4, 80));
    const warm = [air(-3, 22, 55), air(-2, 22, 55), air(-1, 22, 55)];
    expect(judgedOf("condensation", aScene(0, [...cold, ...warm], { booking: soon }))).toMatchObject({
      stands: "holds",
    });
    const later = Array.from({ length: 18 }, (_, index) => air(index * 5, 22, 55));
    const scene = aScene(86, [...cold, ...warm, ...later], { booking: soon });
    expect(judgedOf("condensation", scene).stands).toBe("clear");
  });

  it("is unseen without a hygrometer and with an old reading, and nothing to say of a booth packed away", () => {
    const booking = soon;
    expect(judgedOf("condensation", aScene(0, [air(-1, 20, null)], { booking })).stands).toBe("unseen");
    expect(judgedOf("condensation", aScene(0, [air(-11, 20, 60)], { booking })).stands).toBe("unseen");
    expect(judgedOf("condensation", aScene(0, [air(-1, 20, 60)], { booking: null })).stands).toBe("clear");
  });

  it("is raised after two minutes and taken back a minute after it dried", () => {
    const room = Array.from({ length: 12 }, (_, index) => air(index, 20, 60));
    const story = [...room, air(0, 5, null, "case"), air(6, 15, null, "case"), air(7, 15, null, "case")];
    const sorted = story.sort(([a], [b]) => a - b);
    const play = { fromMin: 0, toMin: 10, over: () => ({ booking: soon }) };
    const told = playAlerts("condensation", sorted, play);
    // The case's own past keeps what is inside it cold for longer than its skin.
    expect(told[0]).toBe("raised@2:00 plan");
  });
});

describe("heat for guests", () => {
  const heat = (insideC: number, humidityPct: number | null, over = {}) =>
    judgedOf("heatForGuests", aScene(30, [air(29, insideC, humidityPct)], { settings: trailer, ...over }));

  // National Weather Service's heat index table: 90 F and 50 % feel like 95 F (extreme caution), 96 F and 50 % like
  // 108 F (danger), 80 F and 40 % like 80 F (caution).
  it.each([
    ["extreme caution", 32.22, 50, "holds", "plan", 95],
    ["danger", 35.56, 50, "holds", "actNow", 108],
  ] as const)("of %s in a trailer", (_, insideC, humidityPct, stands, severity, indexF) => {
    const judged = heat(insideC, humidityPct);
    expect(judged).toMatchObject({ stands, severity });
    const indexC = "heatIndexC" in judged ? (judged.heatIndexC ?? 0) : 0;
    expect(Math.abs(indexC * 1.8 + 32 - indexF)).toBeLessThan(1);
  });

  it("is clear at caution, and lingers within a degree of extreme caution", () => {
    expect(heat(26.67, 40).stands).toBe("clear");
    expect(heat(30, 50).stands).toBe("clear");
    expect(heat(30.4, 50).stands).toBe("lingers");
  });

  it("is for soon at an open booth, whose thermometer stands at the printer", () => {
    expect(heat(35.56, 50, { settings: aBooth() })).toMatchObject({ stands: "holds", severity: "plan" });
  });

  it("without a hygrometer holds when dry air would be too hot, and is over when wet air would not", () => {
    expect(heat(44, null)).toMatchObject({ stands: "holds", severity: "actNow" });
    expect(heat(34, null)).toMatchObject({ stands: "unseen" });
    expect(heat(26, null)).toMatchObject({ stands: "clear" });
  });

  it("names what full sun may add, up to 15 F, while the sun is on the booth", () => {
    const sun = [{ fromAtMs: at(20), toAtMs: at(40) }];
    const judged = heat(32.22, 50, { outlook: anOutlook(at(30), null, { sun }) });
    const { heatIndexC = 0, feelsC = 0 } = "heatIndexC" in judged ? judged : {};
    expect((feelsC ?? 0) - (heatIndexC ?? 0)).toBeCloseTo(15 / 1.8, 6);
    expect(heat(32.22, 50)).toMatchObject({ feelsC: null });
  });

  it("is raised after two minutes, and taken back after five that were cool", () => {
    const minutes = Array.from({ length: 15 }, (_, minute) => air(minute, minute < 5 ? 36 : 24, 50));
    const play = { fromMin: 0, toMin: 14, over: () => ({ settings: trailer }) };
    expect(playAlerts("heatForGuests", minutes, play)).toEqual([
      "raised@2:00 actNow",
      "cleared@10:00 actNow",
    ]);
  });
});
