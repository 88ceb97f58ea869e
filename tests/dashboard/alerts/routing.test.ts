import { describe, expect, it } from "vitest";
import type { Alert } from "../../../dashboard/alerts/alert.ts";
import { noticesDue, withTold } from "../../../dashboard/alerts/routing.ts";
import type { Reach } from "../../../dashboard/alerts/scene.ts";
import { anAlert } from "../../support/anAlert.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

const routing = { escalateAfterMin: { actNow: 3, plan: 15 }, repeatAfterMin: 10 };
const both: Reach = { hasOwner: true, hasAttendant: true };
const at = (minute: number) => sixAtMs + minute * minuteMs;
const busy = (minute: number) => ({ atMs: at(minute), isQuietTime: false });

/** Asks each half minute for so many minutes, and says what was told when: "2.5 escalated owner". */
function told(
  alert: Alert,
  minutes: number,
  over: {
    reachable?: Reach;
    concerns?: "attendant" | "owner" | "both";
    change?: (minute: number) => Partial<Alert>;
    isQuietTime?: boolean;
  } = {},
): string[] {
  const { reachable = both, concerns = "attendant", change = () => ({}) } = over;
  const { isQuietTime = false } = over;
  const lines: string[] = [];
  let now = alert;
  for (let half = 0; half <= minutes * 2; half += 1) {
    now = { ...now, ...change(half / 2) };
    const due = noticesDue(now, { concerns }, routing, reachable, {
      ...{ atMs: at(half / 2), isQuietTime },
    });
    now = withTold(now, due, at(half / 2));
    lines.push(...due.map(({ why, toRole }) => `${half / 2} ${why} ${toRole}`));
  }
  return lines;
}

describe("who is told of an alert", () => {
  it("the attendant at once, the owner when nobody took it, both again while nobody does, each time later", () => {
    expect(told(anAlert(), 80)).toEqual([
      ...["0 raised attendant", "3 escalated owner"],
      ...["13 repeat attendant", "13 repeat owner", "33 repeat attendant", "33 repeat owner"],
      ...["73 repeat attendant", "73 repeat owner"],
    ]);
  });

  it("each once while the booth is set up or packed down, and nobody in another's place", () => {
    expect(told(anAlert(), 60, { isQuietTime: true })).toEqual(["0 raised attendant"]);
    const change = (minute: number) => (minute === 2 ? { taken: { by: "Ama", atMs: at(2) } } : {});
    expect(told(anAlert(), 60, { isQuietTime: true, concerns: "both", change })).toEqual([
      ...["0 raised attendant", "0 raised owner"],
    ]);
  });

  it("nobody more once somebody took it, until it has been theirs for too long", () => {
    const change = (minute: number) => (minute === 2 ? { taken: { by: "Ama", atMs: at(2) } } : {});
    expect(told(anAlert(), 60, { change })).toEqual(["0 raised attendant", "17 escalated owner"]);
  });

  it("the owner at once where no attendant can be reached", () => {
    const reachable = { hasOwner: true, hasAttendant: false };
    expect(told(anAlert(), 5, { reachable })).toEqual(["0 raised owner"]);
  });

  it("the owner alone of what concerns the owner", () => {
    expect(told(anAlert({ severity: "plan" }), 20, { concerns: "owner" })).toEqual(["0 raised owner"]);
  });

  it("attendant and owner at once of what concerns both, and again both when it is worse", () => {
    const change = (minute: number) => (minute === 5 ? { severity: "actNow" as const } : {});
    expect(told(anAlert({ severity: "plan" }), 15, { concerns: "both", change })).toEqual([
      ...["0 raised attendant", "0 raised owner", "5 worse attendant", "5 worse owner"],
      ...["15 repeat attendant", "15 repeat owner"],
    ]);
  });

  it("the owner alone of what concerns both, as long as no attendant can be reached", () => {
    const nobodyThere = { hasOwner: true, hasAttendant: false };
    const alert = anAlert({ severity: "plan" });
    const first = noticesDue(alert, { concerns: "both" }, routing, nobodyThere, busy(0));
    expect(first.map(({ toRole }) => toRole)).toEqual(["owner"]);
    const later = withTold(alert, first, at(0));
    expect(noticesDue(later, { concerns: "both" }, routing, both, busy(1))).toMatchObject([
      { why: "raised", toRole: "attendant" },
    ]);
  });

  it("of 'soon' once each, never again", () => {
    expect(told(anAlert({ severity: "plan" }), 240)).toEqual(["0 raised attendant", "15 escalated owner"]);
  });

  it("again when 'soon' becomes 'now'", () => {
    const change = (minute: number) => (minute === 5 ? { severity: "actNow" as const } : {});
    expect(told(anAlert({ severity: "plan" }), 9, { change })).toEqual([
      ...["0 raised attendant", "5 worse attendant", "8 escalated owner"],
    ]);
  });

  it("nobody of what is good to know, silenced, switched off, put off, over or only held", () => {
    const quiet: Partial<Alert>[] = [
      { severity: "note" },
      { suppressedBy: "settingUp" },
      { isOutOfService: true },
      { laterUntilAtMs: at(500) },
      { phase: "over", clearedAtMs: at(0) },
      { phase: "holding" },
    ];
    for (const over of quiet) expect(told(anAlert(over), 30)).toEqual([]);
  });

  it("not for ever: after four repeats whoever did not come is not there", () => {
    const repeats = told(anAlert(), 600).filter((line) => line.includes("repeat attendant"));
    expect(repeats).toEqual([13, 33, 73, 153].map((minute) => `${minute} repeat attendant`));
  });

  it("with keys that are never the same twice", () => {
    let now = anAlert();
    for (let minute = 0; minute <= 300; minute += 1)
      now = withTold(
        now,
        noticesDue(now, { concerns: "attendant" }, routing, both, busy(minute)),
        at(minute),
      );
    const keys = now.told.map(({ key }) => key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys.length).toBe(10);
  });
});
