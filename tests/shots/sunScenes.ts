import type { BoothBox, Standing } from "@boothward/shared-types";
import type { BoothView } from "@boothward/shared-types/view";
import { localDay } from "../../dashboard/forecast/sun/sunDay.ts";
import { sunOnPrinter } from "../../dashboard/forecast/sun/sunOnPrinter.ts";
import { anAlertView, anInsideView, minuteMs } from "../support/aBoothView.ts";
import { aHeatAhead } from "../support/aHeatAhead.ts";
import { aStanding, aTrailerBox } from "../support/aTrailerBox.ts";
import { at, boothAt, juniper, marigold, sorrel, stateOf, thistle } from "./saturday.ts";
import type { StubState } from "./stubDashboard.ts";

/** Applewick Green, which lies nowhere but is as far north as Berlin's clocks are used. */
const site = { latitudeDeg: 52, longitudeDeg: 11 };

/** Sorrel stands with its door to the west: the sun comes in and its heat is about to pass the limit. */
export function inTheSun(): StubState {
  const nowMs = at("17:20");
  const crossAtMs = at("17:45");
  const ahead = aHeatAhead(37.1, 42.2, { crossAtMs, crossChance60: 0.83 }, nowMs);
  const printer = {
    slowing: { isByHeat: true, usualS: 14, lateS: 18 },
    pause: { pauseMinutes: 10, cost: { guestsDelayed: 9, clearsInMinutes: 8 } },
  };
  return sunState(nowMs, (booth, sun) => ({
    ...booth,
    health: "needsAHand",
    inside: anInsideView({
      ...{ insideC: 37.1, atMs: nowMs - 15_000, per15MinC: 1.3, outsideC: 30.4, humidityPct: 44 },
    }),
    outlook: { ...booth.outlook, heat: [ahead], sun, printer },
    alerts: [
      anAlertView({
        ...{ alertId: "alert-sorrel", boothId: "sorrel", matter: "tooHot", severity: "plan" },
        ...{ sinceAtMs: nowMs - 4 * minuteMs, byAtMs: crossAtMs - 10 * minuteMs, reasons: [] },
        ...{ insideC: 37.1, queuedJobs: 0, crossChance60: 0.83 },
      }),
    ],
  }));
}

/** The same trailer just after it was switched on: no look ahead yet, and nobody has measured its walls. */
export function justSwitchedOn(): StubState {
  const nowMs = at("15:10");
  const ahead = aHeatAhead(29, 30, { basis: "notEnoughData" }, nowMs);
  const state = sunState(nowMs, (booth) => ({
    ...booth,
    box: null,
    inside: anInsideView({ insideC: 29, atMs: nowMs - 15_000, per15MinC: null }),
    outlook: { ...booth.outlook, heat: [ahead], sun: null },
  }));
  return { ...state, entries: state.entries.map((entry) => ({ ...entry, box: null })) };
}

type Sun = BoothView["outlook"]["sun"];

/** The Saturday with Sorrel measured and placed, as `change` makes it. */
function sunState(nowMs: number, change: (booth: BoothView, sun: Sun) => BoothView): StubState {
  const box = aTrailerBox();
  const standing = aStanding();
  const measured = boothAt(sorrel, nowMs);
  const { booking } = measured;
  if (booking === null) throw new Error("Sorrel has a booking");
  const placed = { ...measured, box, booking: { ...booking, ...site, standing } };
  const others = [juniper, marigold, thistle].map((plan) => boothAt(plan, nowMs));
  const state = stateOf(nowMs, [change(placed, sunOf(box, standing, booking.openAtMs)), ...others]);
  return {
    ...state,
    entries: state.entries.map((entry) => (entry.boothId === "sorrel" ? { ...entry, box } : entry)),
    bookings: state.bookings.map((each) =>
      each.boothId === "sorrel" ? { ...each, ...site, standing } : each,
    ),
  };
}

function sunOf(box: BoothBox, standing: Standing, openAtMs: number): Sun {
  const frame = { ...box, headingDeg: standing.headingDeg ?? 0 };
  const day = localDay(openAtMs, "Europe/Berlin");
  const stretches = sunOnPrinter(frame, { ...site, horizon: standing.horizon }, day);
  return stretches.map(({ fromMs, toMs }) => ({ fromAtMs: fromMs, toAtMs: toMs }));
}
