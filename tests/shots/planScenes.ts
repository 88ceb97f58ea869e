import { aPowerPlan } from "../support/aPowerPlan.ts";
import { anInsideView, hourMs, minuteMs } from "../support/aBoothView.ts";
import { at, boothAt, juniper, marigold, sorrel, stateOf, thistle } from "./saturday.ts";
import type { StubState } from "./stubDashboard.ts";

/** Half an hour before Juniper's doors: most is checked, some is to do, some cannot be seen. */
export function settingUp(): StubState {
  const nowMs = at("16:31");
  const booths = [juniper, marigold, thistle, sorrel].map((plan) => boothAt(plan, nowMs));
  const [first, ...others] = booths;
  if (first === undefined) throw new Error("there is no Juniper");
  const set = {
    ...first,
    inside: anInsideView({ insideC: 24.1, atMs: nowMs - 8_000, humidityPct: 48, outsideC: 19 }),
  };
  const state = stateOf(nowMs, [set, ...others]);
  const tick = { by: "Ama Quill", atMs: nowMs - 9 * minuteMs };
  return {
    ...state,
    bookings: state.bookings.map((booking) =>
      booking.bookingId === "booking-juniper"
        ? {
            ...{
              ...booking,
              printSizes: ["4x6" as const],
              printsPerSession: 2,
              sheetsLoaded: 100,
              travelMin: 40,
            },
            power: aPowerPlan({
              ...{ volts: 230, breakerA: 6, cord: { lengthM: 40, size: "1 mm2" } },
              loads: [
                { what: "Printer", watts: 450 },
                { what: "Computer and screen", watts: 180 },
                { what: "Lights", watts: 560 },
              ],
            }),
            notes: "Unload at the east gate before 14:30.\nAsk for the house technician.",
            promisedAtMs: at("16:45"),
          }
        : booking.bookingId === "booking-thistle"
          ? {
              ...booking,
              attendant: "Ama Quill",
              openAtMs: at("22:00") + hourMs,
              closeAtMs: at("24:00") + hourMs,
            }
          : booking,
    ),
    ticks: [
      ["powerLocated", tick],
      ["level", tick],
      ["load.booth", tick],
      ["load.camera", tick],
      ["load.printer", tick],
    ],
    setUp: {
      readiness: { to: "powered", atMs: at("15:52") },
      machine: { isUpdatePending: true, sleepsAfterMin: 0, atMs: nowMs - hourMs },
      peers: [{ part: "camera", isThere: true, name: "USB camera", atMs: nowMs - hourMs }],
    },
  };
}
