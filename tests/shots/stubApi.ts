import type { ServerResponse } from "node:http";
import type { Booking, BoothBox, Role, Tick } from "@boothward/shared-types";
import type { ReplayView } from "@boothward/shared-types/replayView";
import type { FileRead, StockView } from "@boothward/shared-types/stock";
import type { BoothEvening, BoothView } from "@boothward/shared-types/view";
import type { SetUpFacts } from "../../dashboard/planning/setUpFacts.ts";
import { answerPeople } from "./stubPeople.ts";
import type { PeopleState } from "./stubPeople.ts";
import { answerReports, answerShared, type ReportsState } from "./stubReports.ts";
import { stubChecks, stubPlan, stubSaid } from "./stubPlan.ts";

/** A booth as Set-up lists it. */
export type BoothEntry = {
  boothId: string;
  name: string;
  isTrailer: boolean;
  kitSheets: number;
  limitC: number;
  box: BoothBox | null;
  agent: { agentId: string; hostName: string; pairedAtMs: number; isLinked: boolean } | null;
};

/** What a stub says; a test changes it at any time. */
export type StubState = {
  nowMs: number;
  booths: readonly BoothView[];
  entries: readonly BoothEntry[];
  bookings: readonly Booking[];
  evenings: readonly BoothEvening[];
  /** How the forecast would have done, by booking. */
  replays: readonly ReplayView[];
  signedIn: { name: string; role: Role } | null;
  /** What was ticked, by the name of its line. */
  ticks: readonly (readonly [check: string, tick: Tick])[];
  /** What was seen while a booth is set up. */
  setUp: Partial<SetUpFacts>;
  /** What the Stock page shows; null: an empty ledger. */
  stock: StockView | null;
  /** Evenings that are over. */
  reports: ReportsState;
  isFirstRun: boolean;
} & PeopleState;

export function answerJson(response: ServerResponse, status: number, answer: unknown): void {
  response.writeHead(status, { "content-type": "application/json" });
  response.end(JSON.stringify(answer));
}

const refusedUnsigned = { error: "notSignedIn", sentence: "Please sign in.", field: null };

function emptyStock(nowMs: number): StockView {
  return {
    ...{
      places: [{ place: "store", fullRolls: 0, partials: [], missing: [] }],
      orders: [],
      moves: [],
      events: [],
    },
    ...{ totals: { bought: 0, used: 0, lost: 0, unexplained: 0 }, olderBefore: null },
    advice: {
      ...{
        serviceLevel: 0.99,
        atHand: 0,
        onOrder: 0,
        orderByAtMs: null,
        isLate: false,
        shortAtMs: null,
        rolls: 0,
        neededNow: 0,
      },
      ...{
        untilAtMs: nowMs + 182 * 86_400_000,
        weekly: null,
        lead: { meanDays: 14, sdDays: 10.5, orders: 0 },
      },
    },
  };
}

/** A file with the word "wrong" in it has a line that cannot be taken. */
function readFile(body: unknown): FileRead {
  const { text, isLook } = body as { text: string; isLook: boolean };
  const isWrong = text.includes("wrong");
  return {
    counts: { new: 2, change: 0, same: 1, skipped: 0 },
    rows: [
      { line: 2, does: "new", text: "Juniper · Ivy Hall" },
      { line: 3, does: "new", text: "Thistle · Brook Library" },
    ],
    problems: isWrong ? [{ line: 4, column: "opens", sentence: "20/06/2026 is no time" }] : [],
    ...{ problemCount: isWrong ? 1 : 0, isKept: !isLook && !isWrong },
  };
}

const noSuchReport = { error: "noSuchReport", sentence: "This link leads to no report.", field: null };
const notKnown = { error: "notFound", sentence: "This booking is not known.", field: null };

/** The answers of the HTTP side to what the pages ask, from a state that they may change. */
export function answerApi(
  state: StubState,
  method: string,
  address: string,
  body: unknown,
  response: ServerResponse,
): void {
  const say = (answer: unknown) => answerJson(response, 200, answer);
  if (address === "/api/me") return say({ isFirstRun: state.isFirstRun, signedIn: state.signedIn });
  if (/^\/api\/(first-run|sign-in|sign-in-once)$/.test(address)) {
    state.signedIn = { name: "Ama Quill", role: "owner" };
    state.isFirstRun = false;
    return say({});
  }
  if (address === "/api/join") {
    state.signedIn = { name: "Ben Tansy", role: "attendant" };
    return say({ name: "Ben Tansy", endsAtMs: state.nowMs + 9 * 3_600_000 });
  }
  if (address === "/api/arrivals") return say({});
  const shared = answerShared(state.reports, address);
  if (shared !== undefined) return shared === null ? answerJson(response, 404, noSuchReport) : say(shared);
  if (state.signedIn === null) return answerJson(response, 401, refusedUnsigned);
  if (address === "/api/sign-out") {
    state.signedIn = null;
    return say({});
  }
  const reported = answerReports(state.reports, address);
  if (reported !== undefined) return reported === null ? answerJson(response, 404, notKnown) : say(reported);
  const people = answerPeople(state, state.signedIn.name, method, address, body);
  if (people !== null) return say(people);
  if (address.endsWith("/pairing-codes"))
    return say({ code: "QK7 M2D", expiresAtMs: state.nowMs + 15 * 60_000 });
  if (address === "/api/sign-in-links")
    return say({ path: "/sign-in#once=4f7Kq2", expiresAtMs: state.nowMs + 15 * 60_000 });
  const evening = /^\/api\/booths\/([^/]+)\/evening$/.exec(address);
  if (evening !== null)
    return say(
      state.evenings.find((each) => each.boothId === evening[1]) ?? {
        boothId: evening[1],
        fromAtMs: state.nowMs,
        toAtMs: state.nowMs,
        inside: [],
        quarters: [],
        stops: [],
        whatIfs: [],
      },
    );
  if (address.endsWith("/facts")) {
    stubSaid(state, body);
    return say({ bootId: "person", seq: 7, atMs: state.nowMs });
  }
  const planned = /^\/api\/bookings\/([^/]+)\/(plan|checks)$/.exec(address);
  if (planned !== null) {
    const [, bookingId = "", part] = planned;
    const found = part === "plan" ? stubPlan(state, bookingId) : stubChecks(state, bookingId);
    return found === null ? answerJson(response, 404, notKnown) : say(found);
  }
  const replayed = /^\/api\/bookings\/([^/]+)\/replay$/.exec(address);
  if (replayed !== null) {
    const found = state.replays.find((each) => each.bookingId === replayed[1]);
    return found === undefined ? answerJson(response, 404, notKnown) : say(found);
  }
  if (address === "/api/booths" && method === "POST") {
    const asked = body as Omit<BoothEntry, "boothId" | "agent">;
    const entry = { ...asked, boothId: `new-${state.entries.length}`, agent: null };
    state.entries = [...state.entries, entry];
    return say({ boothId: entry.boothId });
  }
  if (address === "/api/booths") return say({ booths: state.entries });
  if (address === "/api/bookings" && method === "POST") {
    const booking = { bookingId: `new-${state.bookings.length}`, ...(body as Omit<Booking, "bookingId">) };
    state.bookings = [...state.bookings, booking];
    return say(booking);
  }
  if (address === "/api/settings/business")
    return say({ name: "", logo: null, paper: "a4", pricePerRoll: null, currency: "EUR" });
  if (address === "/api/stock") return say(state.stock ?? emptyStock(state.nowMs));
  if (address.endsWith("/loaded")) return say({ moved: 3, inStore: 17 });
  if (address.endsWith("/import")) return say(readFile(body));
  if (address === "/api/bookings") return say({ bookings: state.bookings });
  return say({});
}
