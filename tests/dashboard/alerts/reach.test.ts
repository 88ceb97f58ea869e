import { describe, expect, it } from "vitest";
import type { Reach } from "../../../dashboard/alerts/scene.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";
import { playAlerts } from "../../support/playAlerts.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const soon = aBookedTime({ openAtMs: at(90), closeAtMs: at(400), attendant: "Ama" });
const both: Reach = { hasOwner: true, hasAttendant: true };
const ownerOnly: Reach = { hasOwner: true, hasAttendant: false };
const nobody: Reach = { hasOwner: false, hasAttendant: false };
const heard = (minute: number, role: "owner" | "attendant"): StoryLine => [minute, "testHeard", { role }];

describe("a test alert before the opening", () => {
  const standsAt = (minute: number, lines: StoryLine[], reach: Reach = both) =>
    judgedOf("testNotReceived", aScene(minute, lines, { booking: soon, reach })).stands;

  it("is asked for in the last hour, and over when it has arrived with the attendant", () => {
    const story = [heard(40, "attendant")];
    const over = () => ({ booking: soon, reach: both });
    expect(playAlerts("testNotReceived", story, { fromMin: 25, toMin: 45, everyS: 15, over })).toEqual([
      ...["raised@31:00 plan", "cleared@40:00 plan"],
    ]);
    expect(judgedOf("testNotReceived", aScene(35, [], over()))).toMatchObject({ byAtMs: soon.openAtMs });
  });

  it("counts from the one who would be called, and from this booking's set-up", () => {
    expect(standsAt(35, [heard(33, "owner")])).toBe("holds");
    expect(standsAt(35, [heard(33, "owner")], ownerOnly)).toBe("clear");
    expect(standsAt(35, [heard(-31, "attendant")])).toBe("holds");
    expect(standsAt(35, [heard(-29, "attendant")])).toBe("clear");
  });

  it("is left to its own alert where nobody can be reached", () => {
    expect(standsAt(35, [], nobody)).toBe("clear");
    expect(standsAt(95, [])).toBe("clear");
  });

  it("is asked for also while the booth itself is not heard", () => {
    const scene = aScene(35, [], { booking: soon, reach: both, heardAtMs: at(10) });
    expect(judgedOf("testNotReceived", scene).stands).toBe("holds");
    expect(judgedOf("sleepOn", scene).stands).toBe("unseen");
  });
});

describe("nobody at the booth who can be told", () => {
  const standsFor = (reach: Reach, booking = soon) =>
    judgedOf("attendantUnreached", aScene(35, [], { booking, reach })).stands;

  it("is for the owner to mend while an attendant is booked", () => {
    expect(standsFor(ownerOnly)).toBe("holds");
    expect(standsFor(nobody)).toBe("holds");
    expect(standsFor(both)).toBe("clear");
  });

  it("is not so where the owner works alone, nor far from any booking", () => {
    expect(standsFor(ownerOnly, aBookedTime({ ...soon, attendant: null }))).toBe("clear");
    expect(standsFor(nobody, aBookedTime({ ...soon, attendant: null }))).toBe("holds");
    expect(judgedOf("attendantUnreached", aScene(35, [], { booking: null, reach: nobody })).stands).toBe(
      "clear",
    );
  });
});
