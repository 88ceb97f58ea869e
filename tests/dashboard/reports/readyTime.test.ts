import { describe, expect, it } from "vitest";
import { readyTime, silences } from "../../../dashboard/reports/readyTime.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { stateOf } from "../../support/aBooth.ts";
import { hourMs, minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const everyMinute = (fromMin: number, toMin: number) =>
  Array.from({ length: toMin - fromMin + 1 }, (_, index) => at(fromMin + index));

/** An hour from 18:00 with this story; pauses as "why from-to" in minutes. */
function anHour(lines: readonly StoryLine[], heard = everyMinute(-30, 90), toMin = 90) {
  const held = aBookedTime({ closeAtMs: at(60), toAtMs: at(toMin) });
  const { time, pauses } = readyTime(stateOf(lines), held, hourMs, heard, held.closeAtMs);
  const minute = (atMs: number) => (atMs - sixAtMs) / minuteMs;
  return {
    ready: time.readyMs / minuteMs,
    promised: time.promisedMs / minuteMs,
    time,
    pauses: pauses.map(({ why, reason, fromAtMs, toAtMs }) =>
      [why, reason ?? "-", `${minute(fromAtMs)}-${minute(toAtMs)}`].join(" "),
    ),
  };
}

const stopped = (minute: number, reasons: string[]): StoryLine => [
  minute,
  "printerState",
  { state: "stopped", reasons },
];
const idle = (minute: number): StoryLine => [minute, "printerState", { state: "idle", reasons: [] }];

describe("the time a booth was ready", () => {
  it("is all that was promised where nothing went wrong", () => {
    expect(anHour([])).toMatchObject({ ready: 60, promised: 60, pauses: [] });
  });

  it("is less by each stop of the printer, as far as it lies in the open hours", () => {
    expect(
      anHour([stopped(-5, ["media-jam-error"]), idle(3), stopped(20, ["cover-open"]), idle(22)]),
    ).toMatchObject({ ready: 55, pauses: ["stopped media-jam 0-3", "stopped cover-open 20-22"] });
  });

  it("names the worst that was seen in a stop, and a roll change as what it was", () => {
    expect(
      anHour([
        stopped(10, ["cover-open-error"]),
        stopped(11, ["media-empty-error"]),
        [13, "rollFitted", { sheets: 400 }],
        idle(14),
      ]),
    ).toMatchObject({ ready: 56, pauses: ["rollChange media-empty 10-14"] });
  });

  it("goes on to the close where the printer never came back", () => {
    expect(anHour([stopped(50, ["media-empty-error"])])).toMatchObject({
      ...{ ready: 50, pauses: ["stopped media-empty 50-60"] },
    });
  });

  it("is promised without the breaks, and a stop in a break takes nothing", () => {
    expect(
      anHour([
        [20, "readiness", { to: "onBreak" }],
        stopped(22, ["media-jam-error"]),
        idle(28),
        [30, "readiness", { to: "open" }],
      ]),
    ).toMatchObject({ ready: 50, promised: 50, pauses: ["onBreak - 20-30"] });
  });

  it("is promised without the breaks of the plan, also where nobody said that one began", () => {
    const held = aBookedTime({
      closeAtMs: at(60),
      toAtMs: at(90),
      breaks: [{ fromAtMs: at(20), toAtMs: at(35) }],
    });
    const said: readonly StoryLine[] = [
      [30, "readiness", { to: "onBreak" }],
      [40, "readiness", { to: "open" }],
    ];
    const { time } = readyTime(stateOf(said), held, hourMs, everyMinute(-30, 90), held.closeAtMs);
    expect([time.promisedMs, time.breaksMs, time.readyMs].map((each) => each / minuteMs)).toEqual([
      40, 20, 40,
    ]);
  });

  it("is not known while nothing was heard, also not whether a stop went on", () => {
    const heard = [...everyMinute(-30, 20), ...everyMinute(40, 90)];
    expect(anHour([stopped(15, ["media-jam-error"]), idle(45)], heard)).toMatchObject({
      ready: 30,
      pauses: ["stopped media-jam 15-20", "unknown - 20-40", "stopped media-jam 40-45"],
    });
  });

  it("ends when the booth was packed down before the close", () => {
    expect(anHour([], everyMinute(-30, 90), 50)).toMatchObject({ ready: 50, pauses: ["packedDown - 50-60"] });
  });

  it("adds up: promised is ready, stopped, packed down and unknown", () => {
    const { time } = anHour(
      [stopped(10, []), idle(12)],
      [...everyMinute(-5, 30), ...everyMinute(41, 70)],
      55,
    );
    expect(time.readyMs + time.stoppedMs + time.packedDownMs + time.unknownMs).toBe(time.promisedMs);
    expect(time.unknownMs).toBe(11 * minuteMs);
  });

  it("is counted on instants when the clocks change", () => {
    // tz database, computed independently: Berlin 2026-10-24 20:00 to 03:30 is PT8H30M, 2026-03-28 20:00 to 03:30 is
    // PT6H30M, New York 2026-10-31 20:00 to 02:30 is PT7H30M.
    const nights = [
      ["Europe/Berlin", "2026-10-24T20:00+02:00", "2026-10-25T03:30+01:00", 8.5],
      ["Europe/Berlin", "2026-03-28T20:00+01:00", "2026-03-29T03:30+02:00", 6.5],
      ["America/New_York", "2026-10-31T20:00-04:00", "2026-11-01T02:30-05:00", 7.5],
    ] as const;
    for (const [zone, open, close, hours] of nights) {
      const [openAtMs, closeAtMs] = [Date.parse(open), Date.parse(close)];
      const held = aBookedTime({ zone, openAtMs, closeAtMs, fromAtMs: openAtMs, toAtMs: closeAtMs });
      const { time } = readyTime(stateOf([]), held, closeAtMs - openAtMs, [], closeAtMs);
      expect(time.promisedMs / hourMs).toBe(hours);
    }
  });
});

describe("silences", () => {
  const hours = { fromAtMs: at(0), toAtMs: at(60) };
  const found = (heard: readonly number[]) =>
    silences(heard, hours).map(({ fromAtMs, toAtMs }) => [
      (fromAtMs - sixAtMs) / minuteMs,
      (toAtMs - sixAtMs) / minuteMs,
    ]);

  it("begin after more than five minutes without a word", () => {
    expect(found([at(-1), at(4), at(9), at(14.1), ...everyMinute(15, 60)])).toEqual([[9, 14.1]]);
  });

  it("reach to the opening and to the close where nothing was heard outside them", () => {
    expect(found(everyMinute(10, 50))).toEqual([
      [0, 10],
      [50, 60],
    ]);
  });

  it("are the whole evening where nothing was ever heard", () => {
    expect(found([])).toEqual([[0, 60]]);
  });

  it("are none at the end where the last word is no older than that", () => {
    expect(found(everyMinute(-5, 56))).toEqual([]);
  });
});
