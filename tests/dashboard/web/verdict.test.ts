import { describe, expect, it } from "vitest";
import type { BoothView } from "@boothward/shared-types/view";
import { toneOf } from "../../../dashboard/web/state/boothLook.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { cutOffVerdict, isNothingConnected, verdictOf } from "../../../dashboard/web/words/verdict.ts";
import {
  aBookingView,
  aBoothView,
  aMediaOutlook,
  anAlertView,
  eveningAtMs,
  hourMs,
  minuteMs,
} from "../../support/aBoothView.ts";
import { anOutlook } from "../../support/anOutlook.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");
const verdict = (...booths: BoothView[]) => verdictOf({ booths, nowMs: eveningAtMs, formatOf: () => format });

const juniper = aBoothView();
const marigold = aBoothView({ boothId: "marigold", name: "Marigold" });
const thistle = aBoothView({ boothId: "thistle", name: "Thistle" });
const sorrel = aBoothView({ boothId: "sorrel", name: "Sorrel", isTrailer: true });

const stopped = (booth: BoothView): BoothView => ({
  ...booth,
  health: "stopped",
  alerts: [anAlertView({ alertId: `stop-${booth.boothId}`, boothId: booth.boothId })],
});
const low = (booth: BoothView, byAtMs: number): BoothView => ({
  ...booth,
  health: "watch",
  alerts: [
    anAlertView({
      alertId: `low-${booth.boothId}`,
      boothId: booth.boothId,
      matter: "mediaLow",
      severity: "plan",
      byAtMs,
      sheetsLeft: 62,
      emptyAtMs: byAtMs + 45 * minuteMs,
    }),
  ],
});
const silent = (booth: BoothView): BoothView => ({
  ...booth,
  health: "silent",
  heardAtMs: eveningAtMs - 29 * minuteMs,
});

describe("a printer that stands still while nobody is called for it", () => {
  const quiet = (suppressedBy: "settingUp" | "packingDown"): BoothView => {
    const booth = stopped(thistle);
    const booking = aBookingView({ openAtMs: eveningAtMs + hourMs });
    const alerts = booth.alerts.map((alert) => ({ ...alert, state: "suppressed" as const, suppressedBy }));
    return { ...booth, booking, alerts };
  };

  it("is watched, not cried, and is said together with why nobody is called", () => {
    const { headline, more, isNow } = verdict(quiet("settingUp"), juniper);
    expect(isNow).toBe(false);
    expect(headline).toMatch(/^Thistle: /);
    expect(more).toContain("It has not printed since");
    expect(more).toContain("It is being set up: nobody is called for it before doors at 19:00.");
    expect(toneOf(quiet("settingUp"), false)).toBe("watch");
  });

  it("asks for nothing once it is packed down", () => {
    const { headline, more } = verdict(quiet("packingDown"), juniper);
    expect(headline).toBe("Keep an eye on Thistle.");
    expect(more).toContain("It is being packed down: nobody is called for it.");
  });

  it("is a stop like any other where an alert of it is not silenced so", () => {
    const dark = stopped(thistle);
    const alerts = dark.alerts.map((alert) => ({ ...alert, state: "outOfService" as const }));
    expect(verdict({ ...dark, alerts }).headline).toBe("Thistle has stopped.");
  });
});

describe("the verdict over all booths", () => {
  it("says that nothing is connected when no booth was ever heard", () => {
    const unheard = aBoothView({ heardAtMs: null, health: "unknown" });
    expect(verdict().headline).toBe("No booth is connected yet.");
    expect(verdict(unheard).headline).toBe("No booth is connected yet.");
    expect(isNothingConnected([unheard, marigold])).toBe(false);
  });

  it("promises the close only when every booth's paper lasts", () => {
    expect(verdict(juniper, marigold, thistle, sorrel).headline).toBe("All four will make it to close.");
    expect(verdict(juniper, marigold).headline).toBe("Both will make it to close.");
    expect(verdict(sorrel).headline).toBe("The trailer Sorrel will make it to close.");
    const unsure = { ...marigold, outlook: anOutlook(eveningAtMs) };
    expect(verdict(juniper, unsure).headline).toBe("Nothing needs you now.");
    expect(verdict(juniper, unsure).more).toContain("Marigold");
  });

  it("says which booth opens next", () => {
    const later = aBookingView({ openAtMs: eveningAtMs + hourMs, closeAtMs: eveningAtMs + 5 * hourMs });
    expect(verdict(juniper, { ...thistle, booking: later }).more).toBe("Next: Thistle opens at 19:00.");
  });

  it("lets one booth that needs somebody now outrank all others", () => {
    const found = verdict(low(juniper, eveningAtMs + hourMs), silent(marigold), stopped(thistle));
    expect(found.isNow).toBe(true);
    expect(found.headline).toMatch(/^Thistle/);
    expect(found.headline).toContain("fit the spare roll");
  });

  it("counts several and names the one that has stopped first", () => {
    const hot = {
      ...sorrel,
      health: "needsAHand" as const,
      alerts: [anAlertView({ alertId: "hot", matter: "tooHot", insideC: 41, reasons: [] })],
    };
    const found = verdict(hot, stopped(thistle), juniper);
    expect(found.headline).toBe("Two booths need somebody now.");
    expect(found.more).toMatch(/^Thistle/);
  });

  it("says a stop that nobody has been told of yet", () => {
    const found = verdict({ ...juniper, health: "stopped" }, marigold);
    expect(found).toMatchObject({ headline: "Juniper has stopped.", isNow: true });
  });

  it("says what is due soon with the earliest latest moment first", () => {
    const found = verdict(low(juniper, eveningAtMs + 2 * hourMs), low(sorrel, eveningAtMs + hourMs));
    expect(found.headline).toMatch(/^The trailer Sorrel needs a roll by 19:00/);
    expect(found.more).toContain("Another booth needs something soon.");
    expect(verdict(low(juniper, eveningAtMs + hourMs), marigold, thistle).more).toContain(
      "The other two will make it to close.",
    );
  });

  it("says who is silent and for how long, and what of the others", () => {
    const found = verdict(juniper, silent(marigold), thistle, sorrel);
    expect(found.headline).toBe("Marigold has been silent for 29 minutes.");
    expect(found.more).toBe("The other three will make it to close.");
    expect(verdict(silent(juniper), silent(marigold)).headline).toBe("Two booths are silent.");
  });

  it("never counts an unknown booth among the well ones", () => {
    const unknown = aBoothView({ health: "unknown", media: null });
    const found = verdict(unknown, marigold);
    expect(found.headline).toBe("How Juniper is is not known.");
    expect(found.headline + found.more).not.toContain("All");
    const neverHeard = aBoothView({ health: "unknown", heardAtMs: null });
    expect(verdict(neverHeard, marigold).headline).toBe("Juniper has not been heard yet.");
    expect(verdict({ ...juniper, health: "watch" }, marigold).headline).toBe("Keep an eye on Juniper.");
  });

  it("is the same matter while only its minutes change", () => {
    const at = (nowMs: number) =>
      verdictOf({ booths: [silent(juniper), marigold], nowMs, formatOf: () => format });
    expect(at(eveningAtMs).headline).not.toBe(at(eveningAtMs + 5 * minuteMs).headline);
    expect(at(eveningAtMs).matter).toBe(at(eveningAtMs + 5 * minuteMs).matter);
    expect(verdict(stopped(juniper), marigold).matter).not.toBe(verdict(juniper, marigold).matter);
  });

  it("says no present when the dashboard is out of reach", () => {
    const found = cutOffVerdict(verdict(stopped(juniper), marigold), "2 minutes");
    expect(found.headline).toBe("No word from the dashboard for 2 minutes.");
    expect(found.more).toMatch(/^Before that: Juniper/);
    expect(found.isNow).toBe(false);
  });

  it("says to watch a paper that may end before the close, before there is an alert on it", () => {
    const emptyAtMs = { p10: eveningAtMs, p50: eveningAtMs + hourMs, p90: null };
    const ends = aBoothView({
      outlook: anOutlook(eveningAtMs, aMediaOutlook({ lastsChance: 0.3, emptyAtMs })),
    });
    const found = verdict(ends, marigold);
    expect(found.headline).toBe("Keep an eye on Juniper.");
    expect(found.more).toBe(
      "The paper ends about 19:00, before the close. The other one will make it to close.",
    );
  });

  it("says beside one that needs somebody now how many more are due soon", () => {
    expect(verdict(stopped(juniper), low(marigold, eveningAtMs + hourMs)).more).toBe(
      "Another booth needs something soon.",
    );
  });
});
