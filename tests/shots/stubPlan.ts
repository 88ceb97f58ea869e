import type { Booking, ChecksView, PlanView, Tick } from "@boothward/shared-types";
import { readyBy } from "../../dashboard/planning/clashes.ts";
import { loadOut } from "../../dashboard/planning/loadOut.ts";
import { openingChecks } from "../../dashboard/planning/openingChecks.ts";
import { powerSum } from "../../dashboard/planning/powerSum.ts";
import { nextReadiness } from "../../dashboard/planning/readinessSteps.ts";
import { rollsToBring } from "../../dashboard/planning/rollsToBring.ts";
import type { SetUpFacts } from "../../dashboard/planning/setUpFacts.ts";
import type { StubState } from "./stubApi.ts";

const hourMs = 3_600_000;

/** What follows from a booking of the stub; null: there is none. */
export function stubPlan(state: StubState, bookingId: string): PlanView | null {
  const booking = state.bookings.find((each) => each.bookingId === bookingId);
  const entry = state.entries.find((each) => each.boothId === booking?.boothId);
  if (booking === undefined || entry === undefined) return null;
  const sun = viewOf(state, booking)?.outlook.sun ?? null;
  const rolls = rollsToBring(booking, entry.kitSheets, []);
  const openHours = (booking.closeAtMs - booking.openAtMs) / hourMs;
  const plan = { booking, rolls, isTrailer: entry.isTrailer, hasSun: sun !== null && sun.length > 0 };
  return {
    ...{ booking, boothName: entry.name, rolls, sun },
    power: booking.power === null ? null : powerSum(booking.power, openHours),
    loadOut: loadOut(plan, ticksOf(state)),
  };
}

/** Its opening checks, of what the booth of the stub shows and of what was said to it. */
export function stubChecks(state: StubState, bookingId: string): ChecksView | null {
  const booking = state.bookings.find((each) => each.bookingId === bookingId);
  const view = booking === undefined ? undefined : viewOf(state, booking);
  if (booking === undefined || view === undefined) return null;
  const { boothId, client, place, zone, openAtMs, closeAtMs } = booking;
  const facts: SetUpFacts = { ...unseen, ...state.setUp, ticks: ticksOf(state) };
  const to = facts.readiness?.to ?? null;
  return {
    ...{ bookingId, boothId, boothName: view.name, client, place, zone, openAtMs, closeAtMs },
    readyByAtMs: readyBy(booking),
    checks: openingChecks({ booking, view, facts, diskFreeMb: 41_000, atMs: state.nowMs }),
    readiness: facts.readiness,
    next: [...nextReadiness(to)],
  };
}

/** Keeps what a page says of a booth, as far as the checks ask for it. */
export function stubSaid(state: StubState, body: unknown): void {
  const said = body as { kind: string; check?: string; isDone?: boolean };
  if (said.kind !== "check" || said.check === undefined) return;
  const others = state.ticks.filter(([check]) => check !== said.check);
  const by = state.signedIn?.name ?? "";
  state.ticks = said.isDone === true ? [...others, [said.check, { by, atMs: state.nowMs }]] : others;
}

const unseen: SetUpFacts = {
  ...{ ticks: new Map(), testPrint: null, testHeard: null, peers: [], machine: null, readiness: null },
};

function viewOf(state: StubState, { boothId }: Booking) {
  return state.booths.find((each) => each.boothId === boothId);
}

function ticksOf(state: StubState): Map<string, Tick> {
  return new Map(state.ticks);
}
