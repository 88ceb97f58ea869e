import type { AlertAnswer } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { noFigures, type Alert, type Judged } from "../../../dashboard/alerts/alert.ts";
import { alertState } from "../../../dashboard/alerts/alertState.ts";
import { answerAlert } from "../../../dashboard/alerts/answerAlert.ts";
import { stepAlert } from "../../../dashboard/alerts/stepAlert.ts";
import { anAlert } from "../../support/anAlert.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

const timing = { holdMs: 0, clearHoldMs: 0, floorMs: 10 * minuteMs };
const at = (minute: number) => sixAtMs + minute * minuteMs;

function judgedAs(stands: "holds" | "clear" | "unseen"): Judged {
  if (stands !== "holds") return { matter: "printerStopped", stands };
  const since = { atMs: sixAtMs, isAtLatest: false };
  return { ...noFigures, matter: "printerStopped", stands, severity: "actNow", since };
}

type Happening = "holds" | "clear" | AlertAnswer;

/** Plays one thing a minute and says the standard's state after each. */
function states(happenings: readonly Happening[]): string[] {
  let alert: Alert | null = null;
  return happenings.map((happening, minute) => {
    if (happening === "holds" || happening === "clear") {
      const where = { boothId: "juniper", atMs: at(minute), newId: () => "alert-1" };
      alert = stepAlert(alert, judgedAs(happening), timing, where).alert;
    } else if (alert !== null) {
      alert = answerAlert(
        alert,
        { answer: happening, by: "Ama", atMs: at(minute), untilAtMs: null },
        null,
      ).alert;
    }
    return alert === null ? "normal" : alertState(alert, at(minute));
  });
}

// ISA-18.2's states and transitions as tabled (through secondary pages): an alarm is annunciated unacknowledged,
// acknowledged by a person, and may return to normal before or after that; a shelved one comes back by itself.
describe("the states of an alert, by ISA-18.2", () => {
  it("normal, unacknowledged, acknowledged, normal", () => {
    expect(states(["clear", "holds", "take", "clear"])).toEqual([
      ...["normal", "unacknowledged", "acknowledged", "normal"],
    ]);
  });

  it("unacknowledged, returned to normal unacknowledged, and seen to", () => {
    expect(states(["holds", "clear", "take"])).toEqual([
      ...["unacknowledged", "returnedUnacknowledged", "normal"],
    ]);
    expect(states(["holds", "clear", "done"]).at(-1)).toBe("normal");
  });

  it("returned unacknowledged, and unacknowledged again when it holds again", () => {
    expect(states(["holds", "clear", "holds"]).at(-1)).toBe("unacknowledged");
  });

  it("acknowledged and normal, and unacknowledged again when it holds again: what was said was of before", () => {
    expect(states(["holds", "take", "clear", "holds"]).at(-1)).toBe("unacknowledged");
  });

  it("shelved with an end, and back by itself", () => {
    const five = ["holds", "holds", "holds", "holds", "holds"] as const;
    expect(states(["holds", "later", ...five])).toEqual([
      ...["unacknowledged", "shelved", "shelved", "shelved", "shelved", "shelved", "unacknowledged"],
    ]);
  });

  it("shelved, and normal when it clears meanwhile unseen by nobody", () => {
    expect(states(["holds", "later", "clear"]).at(-1)).toBe("returnedUnacknowledged");
  });

  it("suppressed by design and out of service stand before all that people said", () => {
    expect(alertState(anAlert({ suppressedBy: "settingUp" }), at(1))).toBe("suppressed");
    const taken = { by: "Ama", atMs: at(0) };
    expect(alertState(anAlert({ taken, isOutOfService: true }), at(1))).toBe("outOfService");
  });

  it("normal while it is only held: nobody has been told", () => {
    expect(alertState(anAlert({ phase: "holding", raisedAtMs: null }), at(1))).toBe("normal");
  });
});

describe("what is over", () => {
  const over = anAlert({ phase: "over", clearedAtMs: at(5) });
  const step = (alert: Alert, minute: number, stands: "clear" | "unseen" = "clear") =>
    stepAlert(alert, judgedAs(stands), timing, { boothId: "juniper", atMs: at(minute), newId: () => "x" })
      .alert;

  it("waits half an hour for somebody to see it", () => {
    expect(step(over, 34.9)?.phase).toBe("over");
    expect(step(over, 35)).toMatchObject({ phase: "closed", closedAtMs: at(35) });
  });

  it("is closed after its floor once somebody has taken it, also while nobody can tell how it stands", () => {
    const taken = { ...over, taken: { by: "Ama", atMs: at(3) } };
    expect(step(taken, 14.9)?.phase).toBe("over");
    expect(step(taken, 15)?.phase).toBe("closed");
    expect(step(taken, 15, "unseen")?.phase).toBe("closed");
  });
});

describe("an answer", () => {
  const say = (
    alert: Alert,
    answer: AlertAnswer,
    minute: number,
    untilAtMs: number | null = null,
    by = "Ama",
  ) => answerAlert(alert, { answer, by, atMs: at(minute), untilAtMs }, null);

  it("'I'm on it' by two people leaves it with the first, and one line of history", () => {
    const first = say(anAlert(), "take", 1);
    expect(first).toMatchObject({ step: "taken", alert: { taken: { by: "Ama", atMs: at(1) } } });
    const second = say(first.alert, "take", 1, null, "Bo");
    expect(second).toEqual({ alert: first.alert, step: null });
  });

  it("'Later' waits for the next lull, and never past the latest moment", () => {
    const soon = anAlert({ severity: "plan", byAtMs: at(40) });
    const later = (lullAtMs: number | null, untilAtMs: number | null = null) =>
      answerAlert(soon, { answer: "later", by: "Ama", atMs: at(0), untilAtMs }, lullAtMs).alert
        .laterUntilAtMs;
    expect(later(at(25))).toBe(at(25));
    expect(later(at(60))).toBe(at(40));
    expect(later(null)).toBe(at(15));
    expect(later(null, at(120))).toBe(at(40));
  });

  it("'Later' to a 'now' is minutes, whatever is asked for", () => {
    expect(say(anAlert(), "later", 0, at(300)).alert.laterUntilAtMs).toBe(at(5));
  });

  it("'Done' takes it too, and leaves it open until it is seen to be over", () => {
    const { alert, step } = say(anAlert(), "done", 2);
    expect(step).toBe("done");
    expect(alert).toMatchObject({ phase: "open", doneAtMs: at(2), taken: { by: "Ama", atMs: at(2) } });
  });

  it("to what is history is written down and changes nothing", () => {
    const closed = anAlert({ phase: "closed", closedAtMs: at(50) });
    expect(say(closed, "done", 60)).toEqual({ alert: closed, step: "done" });
  });
});

describe("whatever happens to an alert", () => {
  const anyHappening = fc.constantFrom<Happening>("holds", "clear", "take", "later", "done");

  it("is in one of the standard's states, raised before it is anything else, and flat JSON", () => {
    const known = ["normal", "unacknowledged", "acknowledged", "returnedUnacknowledged", "shelved"];
    fc.assert(
      fc.property(fc.array(anyHappening, { maxLength: 40 }), (happenings) => {
        const seen = states(happenings);
        for (const state of seen) expect(known).toContain(state);
        const first = seen.findIndex((state) => state !== "normal");
        if (first >= 0) expect(seen[first]).toBe("unacknowledged");
      }),
    );
  });

  it("said twice is as said once", () => {
    fc.assert(
      fc.property(fc.constantFrom<AlertAnswer>("take", "done"), (answer) => {
        const said = { answer, by: "Ama", atMs: at(1), untilAtMs: null };
        const once = answerAlert(anAlert(), said, null);
        expect(answerAlert(once.alert, { ...said, atMs: at(2) }, null)).toEqual({
          ...{ alert: once.alert, step: null },
        });
      }),
    );
  });
});
