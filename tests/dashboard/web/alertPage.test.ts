import type { AlertStory } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { alertsVerdict } from "../../../dashboard/web/alertPage/alertsVerdict.ts";
import { listAlerts, storyKey } from "../../../dashboard/web/alertPage/listed.ts";
import { storyLines } from "../../../dashboard/web/alertPage/storyLines.ts";
import { alertList } from "../../../dashboard/web/state/alertShapes.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { storied } from "../../shots/peopleScenes.ts";
import { aBoothView, anAlertView, eveningAtMs, minuteMs } from "../../support/aBoothView.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");
const of = () => format;
const verdict = (...alerts: ReturnType<typeof anAlertView>[]) =>
  alertsVerdict(listAlerts([aBoothView({ alerts })], []), eveningAtMs, of);

const plan = anAlertView({ alertId: "plan", severity: "plan", matter: "mediaLow" });
const note = anAlertView({ alertId: "note", severity: "note" });
const taken = { taken: { by: "Ben", atMs: eveningAtMs }, state: "acknowledged" as const };

describe("the verdict over all alerts", () => {
  it("is of those that are now first, then soon, then notes, then those nobody took", () => {
    expect(verdict(note, plan, anAlertView())).toMatchObject({ headline: "One alert needs somebody now." });
    expect(verdict(note, plan, anAlertView()).more).toContain("One is due soon. A note is open too.");
    expect(verdict(plan, note).headline).toBe("One thing is due soon.");
    expect(verdict(note).headline).toBe("Nothing needs anybody; one note is open.");
    expect(verdict({ ...plan, state: "returnedUnacknowledged", overAtMs: eveningAtMs }).headline).toBe(
      "Nothing is open; one is over that nobody took.",
    );
    expect(verdict().headline).toBe("Nothing is open.");
  });

  it("says when somebody is on all that is now, and counts only those that nobody has", () => {
    expect(verdict(anAlertView(taken)).headline).toBe("One alert is “now”, and somebody is on it.");
    expect(verdict(anAlertView(taken), anAlertView({ alertId: "b" })).headline).toBe(
      "One alert needs somebody now.",
    );
  });

  it("does not count what is silenced or switched off", () => {
    expect(verdict(anAlertView({ state: "suppressed", suppressedBy: "settingUp" })).headline).toBe(
      "Nothing is open.",
    );
    expect(verdict(anAlertView({ state: "outOfService" })).headline).toBe("Nothing is open.");
  });
});

describe("the list of alerts", () => {
  const { booths, stories, nowMs } = storied();

  it("sorts them by where they stand", () => {
    const alerts = listAlerts(booths, stories);
    expect(alerts.open.map(({ alert }) => alert.alertId)).toEqual([
      ...["alert-thistle", "alert-sorrel", "alert-marigold", "alert-juniper"],
    ]);
    expect(alerts.untaken.map(({ alert }) => alert.alertId)).toEqual(["untaken"]);
    expect(alerts.silenced.map(({ alert }) => alert.alertId)).toEqual(["silenced"]);
    expect(alerts.closed.map(({ alert }) => alert.alertId)).toEqual(["rolled", "silent"]);
  });

  it("shows a new alert before its story came, and none twice", () => {
    const alerts = listAlerts(booths, []);
    expect(alerts.open).toHaveLength(4);
    expect(alerts.open[0]?.story).toEqual({ log: [], told: [] });
    const [open] = stories;
    if (open === undefined) throw new Error("the scene has stories");
    expect(listAlerts(booths, [{ ...open, closedAtMs: nowMs }]).closed).toEqual([]);
  });

  it("is asked for again when an alert comes, goes or is answered", () => {
    const key = storyKey([aBoothView({ alerts: [plan] })]);
    expect(storyKey([aBoothView({ alerts: [plan] })])).toBe(key);
    expect(storyKey([aBoothView({ alerts: [{ ...plan, ...taken }] })])).not.toBe(key);
    expect(storyKey([aBoothView({ alerts: [plan, note] })])).not.toBe(key);
  });

  it("is read as the dashboard sends it", () => {
    expect(alertList.safeParse({ alerts: stories }).success).toBe(true);
    expect(alertList.safeParse({ alerts: [{ ...stories[0], told: "nobody" }] }).success).toBe(false);
  });
});

describe("an alert's story", () => {
  const atMs = eveningAtMs;
  const step = { atMs, step: "raised", state: "unacknowledged", severity: "actNow", by: null, device: null };
  const told: AlertStory["told"][number] = {
    ...{ alertId: "a", noticeId: "n", deliveryId: "d", atMs, why: "raised", toRole: "attendant", text: "" },
    ...{ severity: "actNow", way: "push", label: "Ben’s phone", state: "taken", lastSaid: null },
    ...{ takenAtMs: atMs + 1000, arrivedAtMs: atMs + 2000 },
  };
  const texts = (story: Pick<AlertStory, "log" | "told">) =>
    storyLines(story, format).map(({ text }) => text);

  it("tells in order who said what from what, who was told by which way, and what came of it", () => {
    const by = { by: "Ben", device: "Chrome on Android", state: "acknowledged" };
    expect(
      texts({
        log: [{ ...step, ...by, atMs: atMs + minuteMs, step: "taken" }, step],
        told: [
          { ...told, atMs: atMs + 1 },
          {
            ...told,
            atMs: atMs + 2,
            toRole: "owner",
            way: "email",
            label: "Office",
            state: "refused",
            arrivedAtMs: null,
          },
          {
            ...told,
            atMs: atMs + 3,
            toRole: "owner",
            way: null,
            label: null,
            state: "nobody",
            arrivedAtMs: null,
          },
        ],
      }),
    ).toEqual([
      "Raised.",
      "The attendant, Ben’s phone (notice): came after 2 s",
      "The owner, Office (e-mail): was refused",
      "To the owner: there was no way to reach anybody",
      "Ben, Chrome on Android is on it.",
    ]);
  });

  it("does not call a notice arrived that was only taken, and passes over a step it has no words for", () => {
    expect(texts({ log: [{ ...step, step: "polished" }], told: [{ ...told, arrivedAtMs: null }] })).toEqual([
      "The attendant, Ben’s phone (notice): sent; whether it came is not known",
    ]);
  });
});
