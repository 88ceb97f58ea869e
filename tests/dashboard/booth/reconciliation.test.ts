import { describe, expect, it } from "vitest";
import { tallyOf } from "../../../dashboard/booth/tally.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { stateOf } from "../../support/aBooth.ts";
import { hourMs, minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const booking = aBookedTime();
const evening = { fromAtMs: booking.fromAtMs, toAtMs: booking.toAtMs, booking };

function tallyAfter(...lines: StoryLine[]) {
  return tallyOf(stateOf(lines), evening, sixAtMs + 4 * hourMs);
}

const session = (minute: number, basis: "hook" | "layouts" | "shots"): StoryLine => [
  minute,
  "session",
  { basis, sessionId: `${basis}-${String(minute)}` },
];

describe("sessions", () => {
  it("count by the booth program's calls, then by layouts, then by shots", () => {
    const shots = [session(1, "shots"), session(5, "shots"), session(9, "shots")];
    const layouts = [session(1.1, "layouts"), session(5.1, "layouts")];
    expect(tallyAfter(...shots)).toMatchObject({ sessions: 3, sessionsBy: "shots" });
    expect(tallyAfter(...shots, ...layouts)).toMatchObject({ sessionsBy: "layouts" });
    expect(tallyAfter(...shots, ...layouts, session(1.2, "hook"))).toMatchObject({ sessionsBy: "hook" });
  });

  it("are told from groups of prints where nothing else is seen", () => {
    const prints: StoryLine[] = [...printsFrom(0, 0.5, 2), ...printsFrom(10, 10.5, 2)];
    expect(tallyAfter(...prints)).toMatchObject({ sessions: 2, sessionsBy: "jobs", pitches: 4 });
  });

  it("without a print after three minutes are digital only", () => {
    const told = [session(1, "layouts"), session(10, "layouts"), ...printsFrom(10, 10.5, 1)];
    expect(tallyAfter(...told)).toMatchObject({ sessions: 2, digitalOnly: 1 });
  });
});

describe("pitches", () => {
  const job = (minute: number, pitches: number): StoryLine => [minute, "print", { pitches }];

  it("count by the printer's counter, and by its jobs where it has none", () => {
    const jobs = [job(1, 2), job(2, 2)];
    expect(tallyAfter(...jobs)).toMatchObject({ pitches: 4, pitchesBy: "jobs" });
    const counter: StoryLine[] = [
      [0, "counter", { pitchesEver: 1_000 }],
      [0.9, "counter", { pitchesEver: 1_002 }],
      job(1, 2),
      [1.9, "counter", { pitchesEver: 1_004 }],
      job(2, 2),
    ];
    expect(tallyAfter(...counter)).toMatchObject({ pitches: 4, pitchesBy: "counter", difference: null });
  });

  it("count by layouts last of all, and layouts beside jobs count nothing twice", () => {
    const layouts: StoryLine = [1, "print", { pitches: 2, basis: "layouts", printId: "l-1", queue: null }];
    expect(tallyAfter(layouts)).toMatchObject({ pitches: 2, pitchesBy: "layouts" });
    expect(tallyAfter(layouts, job(1.5, 2))).toMatchObject({ pitches: 2, pitchesBy: "jobs" });
  });

  it("of two printers with a counter each are those of both", () => {
    const two: StoryLine[] = [
      [0, "counter", { queue: "left", pitchesEver: 1_000 }],
      [0, "counter", { queue: "right", pitchesEver: 50 }],
      [5, "counter", { queue: "left", pitchesEver: 1_003 }],
      [5, "counter", { queue: "right", pitchesEver: 54 }],
    ];
    expect(tallyAfter(...two)).toMatchObject({ pitches: 7, pitchesBy: "counter" });
  });

  it("go on over an agent that began again, with the last jobs shown once more", () => {
    const again: StoryLine[] = [
      [1, "print", { printId: "job-1", pitches: 2 }],
      [5, "agentStarted"],
      [5.1, "print", { printId: "job-1", pitches: 2, bootId: "boot-2" }],
      [6, "print", { printId: "job-2", pitches: 1, bootId: "boot-2" }],
    ];
    expect(tallyAfter(...again)).toMatchObject({ pitches: 3 });
  });

  it("that two sources tell differently are a difference, from the half hour on in which they part", () => {
    const counter: StoryLine[] = [
      [0, "counter", { pitchesEver: 1_000 }],
      ...Array.from({ length: 10 }, (_, at): StoryLine[] => [
        [at + 1, "counter", { pitchesEver: 1_002 + 2 * at }],
        [at + 1.1, "print", { pitches: 1 }],
      ]).flat(),
    ];
    const { pitches, difference } = tallyAfter(...counter);
    expect(pitches).toBe(20);
    expect(difference).toMatchObject({ quantity: "pitches", counted: 20, other: 10, otherBy: "jobs" });
  });
});

describe("bad input", () => {
  it("leaves a session of the future to the future", () => {
    const told = [session(1, "layouts"), session(600, "layouts")];
    expect(tallyOf(stateOf(told), evening, sixAtMs + hourMs)).toMatchObject({ sessions: 1 });
  });

  it("counts ten thousand sessions in a minute, each once", () => {
    const crowd = Array.from({ length: 10_000 }, (_, at): StoryLine => [
      at / 10_000,
      "session",
      { sessionId: `s-${String(at)}` },
    ]);
    expect(tallyAfter(...crowd)).toMatchObject({ sessions: 10_000, pitches: 0 });
  });

  it("counts nothing in a booking that ends before it begins", () => {
    const backward = { ...evening, fromAtMs: sixAtMs + 30 * minuteMs, toAtMs: sixAtMs };
    const told = stateOf([session(1, "layouts"), ...printsFrom(0, 20, 5)]);
    expect(tallyOf(told, backward, sixAtMs + hourMs)).toMatchObject({ sessions: 0, pitches: 0 });
  });
});
