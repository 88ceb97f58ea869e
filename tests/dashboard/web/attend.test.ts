import { describe, expect, it } from "vitest";
import { answering, answeringText } from "../../../dashboard/web/answers/answering.ts";
import { calmText, figuresOf } from "../../../dashboard/web/attend/attendText.ts";
import { followDone, nothingDone } from "../../../dashboard/web/attend/followDone.ts";
import { callingIds, takeUnrung } from "../../../dashboard/web/attend/newlyNow.ts";
import { countdownOf, taskOf } from "../../../dashboard/web/attend/taskOf.ts";
import { pressingAlert, toneOf } from "../../../dashboard/web/state/boothLook.ts";
import { routeOf } from "../../../dashboard/web/state/route.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import {
  aBoothView,
  aMediaView,
  anAlertView,
  anInsideView,
  eveningAtMs,
  hourMs,
  minuteMs,
} from "../../support/aBoothView.ts";
import { aStorage } from "../../support/aStorage.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");
const now = eveningAtMs;
const soon = anAlertView({
  alertId: "soon",
  severity: "plan",
  matter: "mediaLow",
  byAtMs: now + 18 * minuteMs,
});
const urgent = anAlertView({ alertId: "urgent" });
const with_ = (...alerts: ReturnType<typeof anAlertView>[]) => aBoothView({ alerts });

describe("the one thing to do", () => {
  it("is what presses most; a note is none", () => {
    expect(taskOf(with_(soon, urgent), now)?.alertId).toBe("urgent");
    expect(taskOf(with_(soon), now)?.alertId).toBe("soon");
    expect(taskOf(with_(anAlertView({ severity: "note" })), now)).toBeNull();
  });

  it("gives way when it is put off or said to be done, and is back when nobody sees that it was", () => {
    const later = { ...urgent, laterUntilAtMs: now + minuteMs };
    expect(taskOf(with_(later, soon), now)?.alertId).toBe("soon");
    expect(taskOf(with_(later), now)?.alertId).toBe("urgent");
    expect(taskOf(with_(later, soon), now + 2 * minuteMs)?.alertId).toBe("urgent");
    const done = { ...urgent, doneAtMs: now };
    expect(taskOf(with_(done, soon), now + minuteMs)?.alertId).toBe("soon");
    expect(taskOf(with_(done, soon), now + 2 * minuteMs)?.alertId).toBe("urgent");
  });

  it.each(["returnedUnacknowledged", "suppressed", "outOfService"] as const)(
    "is nothing that is %s",
    (state) => {
      const booth = with_({ ...urgent, state });
      expect(taskOf(booth, now)).toBeNull();
      expect(pressingAlert(booth)).toBeNull();
      expect(toneOf(booth, false)).toBe("fine");
    },
  );

  it("counts down in minutes, in seconds at the end, and then how long it is past", () => {
    const at = (leftMs: number) => countdownOf(soon, now + 18 * minuteMs - leftMs);
    expect(at(18 * minuteMs)).toEqual({ n: 18, unit: "min", is: "left" });
    expect(at(2 * minuteMs)).toEqual({ n: 2, unit: "min", is: "left" });
    expect(at(119_000)).toEqual({ n: 119, unit: "s", is: "left" });
    expect(at(-3 * minuteMs)).toEqual({ n: 3, unit: "min", is: "over" });
  });

  it("counts how long a printer has stood, where no moment is the latest", () => {
    expect(countdownOf(urgent, now)).toEqual({ n: 3, unit: "min", is: "stopped" });
    expect(countdownOf(anAlertView({ matter: "tooHot" }), now)).toBeNull();
  });
});

describe("what was answered", () => {
  const text = (alert: typeof urgent, waiting: Parameters<typeof answering>[1] = [], atMs = now) =>
    answeringText(alert, answering(alert, waiting, "Ben", atMs), { by: "Ben", nowMs: atMs, format });
  const press = { alertId: "urgent", sayId: "id", saidAtMs: now };

  it("is said with who and since when", () => {
    expect(text(urgent)).toBe("");
    expect(text({ ...urgent, taken: { by: "Ben", atMs: now } })).toBe("Yours since 18:00.");
    expect(text({ ...urgent, taken: { by: "Ama", atMs: now } })).toBe("Ama is on it since 18:00.");
    expect(text({ ...urgent, laterUntilAtMs: now + 10 * minuteMs })).toBe("Asks again at 18:10.");
  });

  it("stays pressed while it waits on the device, and says that it is kept", () => {
    const its = answering(urgent, [{ ...press, answer: "take" }], "Ben", now);
    expect([...its.pressed]).toEqual(["take"]);
    expect(text(urgent, [{ ...press, answer: "take" }])).toBe(
      "Yours since 18:00. Kept, sends when the booth is reached.",
    );
    expect([
      ...answering(urgent, [{ ...press, alertId: "other", answer: "take" }], "Ben", now).pressed,
    ]).toEqual([]);
  });

  it("waits after Done to see it, and says after two minutes that it does not", () => {
    const done = { ...urgent, doneAtMs: now };
    expect(text(done, [], now + minuteMs)).toBe("Done at 18:00. Waiting to see it.");
    expect(text(done, [], now + 2 * minuteMs)).toContain("We do not see a new roll yet.");
    expect(text({ ...done, matter: "tooHot" }, [], now + 2 * minuteMs)).toBe("We do not see it yet.");
  });

  it("is thanked for when the alert is gone, for a while, and not when somebody else's is", () => {
    const done = { ...urgent, doneAtMs: now };
    const open = followDone(nothingDone, with_(done), new Set(), now);
    expect(open.thanks).toBeNull();
    const seen = followDone(open, with_(), new Set(), now + minuteMs);
    expect(seen.thanks).toEqual({ isPaper: true, atMs: now + minuteMs });
    expect(followDone(seen, with_(), new Set(), now + 4 * minuteMs).thanks).toBeNull();
    expect(
      followDone(followDone(nothingDone, with_(urgent), new Set(), now), with_(), new Set(), now).thanks,
    ).toBeNull();
    const unsent = followDone(nothingDone, with_(urgent), new Set(["urgent"]), now);
    expect(followDone(unsent, with_(), new Set(), now).thanks).not.toBeNull();
  });
});

describe("an attendant's page with nothing to do", () => {
  const calm = (over: Parameters<typeof aBoothView>[0]) => calmText(aBoothView(over), "Juniper", now, format);

  it("says so, and how long the paper lasts", () => {
    expect(calm({}).headline).toBe("Nothing to do.");
    expect(calm({}).more).toContain("Lasts to close");
    expect(calm({}).isDoubt).toBe(false);
  });

  it("never says so of a booth that is silent, unknown or unheard", () => {
    expect(calm({ health: "silent", heardAtMs: now - 29 * minuteMs })).toMatchObject({
      headline: "Juniper has not been heard for 29 minutes.",
      isDoubt: true,
    });
    expect(calm({ health: "unknown" }).isDoubt).toBe(true);
    expect(calm({ heardAtMs: null }).isDoubt).toBe(true);
  });

  it("greys figures of the past and says of when a temperature is", () => {
    const old = anInsideView({ atMs: now - 20 * minuteMs });
    const figures = figuresOf(aBoothView({ inside: old }), now, false, format);
    expect(figures.filter(({ isOld }) => isOld).map(({ name }) => name)).toEqual(["at the printer, 17:40"]);
    expect(figuresOf(aBoothView(), now, true, format).every(({ isOld }) => isOld)).toBe(true);
    expect(figuresOf(aBoothView(), now, true, format)[0]?.name).toBe("sheets left then");
  });

  it("shows what is counted as about, and what is not known as a dash", () => {
    const first = (over: Parameters<typeof aBoothView>[0]) =>
      figuresOf(aBoothView(over), now, false, format)[0]?.figure;
    expect(first({})).toBe("246");
    expect(first({ media: aMediaView({ figure: "counted" }) })).toBe("~ 246");
    expect(first({ media: null })).toBe("–");
  });
});

describe("ringing", () => {
  it("calls for what is now and not taken, put off, silenced or only soon", () => {
    const booth = with_(
      urgent,
      soon,
      { ...urgent, alertId: "taken", taken: { by: "Ama", atMs: now } },
      { ...urgent, alertId: "later", laterUntilAtMs: now + hourMs },
      { ...urgent, alertId: "silenced", state: "suppressed" },
    );
    expect(callingIds([booth], now)).toEqual(["urgent"]);
  });

  it("rings once for each, also after a reload", () => {
    const kept = aStorage();
    expect(takeUnrung(["a"], kept)).toEqual(["a"]);
    expect(takeUnrung(["a", "b"], kept)).toEqual(["b"]);
    expect(takeUnrung(["a", "b"], kept)).toEqual([]);
  });
});

describe("addresses", () => {
  it("lead to the pages of alerts and of people", () => {
    expect(routeOf("/alerts")).toEqual({ screen: "alerts" });
    expect(routeOf("/booths/juniper/attend")).toEqual({ screen: "attend", boothId: "juniper" });
    expect(routeOf("/booths/juniper")).toEqual({ screen: "booth", boothId: "juniper" });
    expect(routeOf("/join")).toEqual({ screen: "join" });
    expect(routeOf("/heard")).toEqual({ screen: "heard" });
  });
});
