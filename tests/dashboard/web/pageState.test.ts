import { describe, expect, it } from "vitest";
import { inOrder, isOld, toneOf } from "../../../dashboard/web/state/boothLook.ts";
import { foldFrame } from "../../../dashboard/web/state/foldFrame.ts";
import { readFrame } from "../../../dashboard/web/state/readFrame.ts";
import { routeOf } from "../../../dashboard/web/state/route.ts";
import { themeOf } from "../../../dashboard/web/state/theme.ts";
import {
  aBookingView,
  aBoothView,
  aMediaOutlook,
  anAlertView,
  eveningAtMs,
  hourMs,
} from "../../support/aBoothView.ts";
import { anOutlook } from "../../support/anOutlook.ts";

const juniper = aBoothView();
const marigold = aBoothView({ boothId: "marigold", name: "Marigold" });

describe("frames of the live socket", () => {
  it("are parsed whole; what cannot be read is passed over", () => {
    const frame = { kind: "all", nowMs: eveningAtMs, booths: [juniper] };
    expect(readFrame(JSON.stringify(frame))).toEqual(frame);
    expect(readFrame(JSON.stringify({ ...frame, booths: [{ ...juniper, kitSheets: "many" }] }))).toBeNull();
    expect(readFrame("{")).toBeNull();
  });

  it("replace a booth where it stands, add a new one last and take one out", () => {
    const nowMs = eveningAtMs;
    const changed = { ...juniper, keptAside: 1 };
    const thistle = aBoothView({ boothId: "thistle" });
    const ids = (frame: Parameters<typeof foldFrame>[1]) =>
      foldFrame([juniper, marigold], frame).map((booth) => booth.boothId + booth.keptAside);
    expect(ids({ kind: "booth", nowMs, booth: changed })).toEqual(["juniper1", "marigold0"]);
    expect(ids({ kind: "booth", nowMs, booth: thistle })).toEqual(["juniper0", "marigold0", "thistle0"]);
    expect(ids({ kind: "gone", nowMs, boothId: "juniper" })).toEqual(["marigold0"]);
    expect(ids({ kind: "beat", nowMs })).toEqual(["juniper0", "marigold0"]);
    expect(ids({ kind: "all", nowMs, booths: [] })).toEqual([]);
  });
});

describe("the look of a booth", () => {
  it("is never fine when it is unknown, silent, unheard or out of the dashboard's reach", () => {
    expect(toneOf(juniper, false)).toBe("fine");
    expect(toneOf(juniper, true)).toBe("unknown");
    expect(toneOf({ ...juniper, health: "unknown" }, false)).toBe("unknown");
    expect(toneOf({ ...juniper, health: "silent" }, false)).toBe("silent");
    expect(toneOf({ ...juniper, heardAtMs: null }, false)).toBe("unknown");
  });

  it("follows its most pressing alert", () => {
    const note = anAlertView({ severity: "note" });
    const plan = anAlertView({ severity: "plan" });
    expect(toneOf({ ...juniper, alerts: [note] }, false)).toBe("fine");
    expect(toneOf({ ...juniper, alerts: [note, plan] }, false)).toBe("plan");
    expect(toneOf({ ...juniper, alerts: [plan, anAlertView()] }, false)).toBe("act");
  });

  it("is watched, not fine, when its paper may not reach the close", () => {
    const media = aMediaOutlook({ lastsChance: 0.6 });
    expect(toneOf({ ...juniper, outlook: anOutlook(eveningAtMs, media) }, false)).toBe("watch");
  });

  it("is old only where nobody hears the booth", () => {
    expect(isOld({ ...juniper, health: "unknown" }, false)).toBe(false);
    expect(isOld({ ...juniper, health: "unknown", isLinked: false }, false)).toBe(true);
    expect(isOld({ ...juniper, health: "silent" }, false)).toBe(true);
    expect(isOld(juniper, true)).toBe(true);
  });

  it("stands on top only when somebody is needed now; who has stopped first, who is silent last", () => {
    const silent = aBoothView({ boothId: "silent", health: "silent", alerts: [anAlertView()] });
    const stopped = aBoothView({ boothId: "stopped", health: "stopped", alerts: [anAlertView()] });
    const soon = aBoothView({ boothId: "soon", alerts: [anAlertView({ severity: "plan" })] });
    const order = inOrder([juniper, silent, soon, stopped, marigold]).map((booth) => booth.boothId);
    expect(order).toEqual(["stopped", "silent", "juniper", "soon", "marigold"]);
  });
});

describe("light and dark", () => {
  const sunsetAtMs = eveningAtMs + hourMs;
  const booths = [aBoothView({ booking: aBookingView({ sunsetAtMs }) })];

  it("turn by themselves at sunset at the venue while the event is on", () => {
    expect(themeOf("byItself", false, booths, sunsetAtMs - 1)).toBe("light");
    expect(themeOf("byItself", false, booths, sunsetAtMs)).toBe("dark");
    expect(themeOf("byItself", false, booths, eveningAtMs + 7 * hourMs)).toBe("light");
  });

  it("are as the device says before, and as a person chose always", () => {
    expect(themeOf("byItself", true, booths, eveningAtMs)).toBe("dark");
    expect(themeOf("light", true, booths, sunsetAtMs)).toBe("light");
    expect(themeOf("dark", false, [], eveningAtMs)).toBe("dark");
  });
});

describe("addresses", () => {
  it("lead to their screens, unknown ones to Today", () => {
    expect(routeOf("/")).toEqual({ screen: "today" });
    expect(routeOf("/booths/a%20b")).toEqual({ screen: "booth", boothId: "a b" });
    expect(routeOf("/booths/a%20b/checks")).toEqual({ screen: "checks", boothId: "a b" });
    expect(routeOf("/run-sheet/b-1/load-out")).toEqual({ screen: "loadOut", bookingId: "b-1" });
    expect(routeOf("/run-sheet/b-1/door-sign")).toEqual({ screen: "doorSign", bookingId: "b-1" });
    expect(routeOf("/run-sheet/b-1/elsewhere")).toEqual({ screen: "runSheet" });
    expect(
      ["/run-sheet", "/set-up", "/sign-in", "/first-run", "/nowhere"].map((path) => routeOf(path).screen),
    ).toEqual(["runSheet", "setUp", "signIn", "firstRun", "today"]);
  });
});
