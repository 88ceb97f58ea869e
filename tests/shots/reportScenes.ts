import type { Report } from "@boothward/shared-types/report";
import { aClientReport, anOwnerReport } from "../support/aReport.ts";
import { hourMs } from "../support/aStoredItem.ts";
import { allWell } from "./scenes.ts";
import type { StubState } from "./stubDashboard.ts";

const dayMs = 24 * hourMs;
const clients = ["Edda and Rowan", "Brook Library", "The Tansy party", "Harbour fair", "Wren and Ivo"];
const kinds = ["wedding", "corporate", "party", "public", "wedding"];

/** An evening so many days ago, with so large a share of the guests of the fullest one. */
function reportOf(at: number, boothName: string, share: number): Report {
  const whole = aClientReport();
  const movedMs = -at * 6 * dayMs;
  const few = (n: number | null) => (n === null ? null : Math.round(n * share));
  const quarters = whole.quarters.map((quarter) => ({
    atMs: quarter.atMs + movedMs,
    sessions: Math.round(quarter.sessions * share),
    prints: few(quarter.prints),
    sheets: few(quarter.sheets),
  }));
  const bookingId = `evening-${at}-${boothName.toLowerCase()}`;
  const client = {
    ...{ ...whole, boothName, client: clients[at % clients.length] ?? "", quarters },
    ...{ eventKind: kinds[at % kinds.length] ?? "", openAtMs: whole.openAtMs + movedMs },
    ...{ closeAtMs: whole.closeAtMs + movedMs, throughAtMs: whole.throughAtMs + movedMs },
    figures: {
      ...{ sessions: few(whole.figures.sessions), prints: few(whole.figures.prints) },
      ...{ sheets: few(whole.figures.sheets), reprints: 4, digitalOnly: 2 },
    },
    pauses: whole.pauses.map((pause) => ({
      ...pause,
      ...{ fromAtMs: pause.fromAtMs + movedMs, toAtMs: pause.toAtMs + movedMs },
    })),
    busiest: whole.busiest && { ...whole.busiest, atMs: whole.busiest.atMs + movedMs },
  };
  return { client, owner: anOwnerReport({ bookingId, boothId: boothName.toLowerCase() }) };
}

/** The report of an evening of which everything is known. */
const full: Report = {
  client: aClientReport(),
  owner: anOwnerReport({ bookingId: "evening" }),
};

/** The same after its owner put a figure right. */
const corrected: Report = {
  client: { ...full.client, corrected: ["sessions"], figures: { ...full.client.figures, sessions: 210 } },
  owner: {
    ...full.owner,
    corrections: [
      {
        ...{ field: "sessions", was: 204, is: 210, by: "Ama Quill", why: "the folder was watched late" },
        atMs: full.client.closeAtMs + 16 * hourMs,
      },
    ],
  },
};

/** After a few weeks of events: a business with a name, two evenings with a link, one corrected. */
export function afterEvents(): StubState {
  const state = allWell();
  return {
    ...state,
    nowMs: full.client.closeAtMs + 20 * hourMs,
    evenings: [],
    reports: {
      reports: [
        corrected,
        ...[1, 2, 3, 4].flatMap((at) => [reportOf(at, "Juniper", 1 - at / 8), reportOf(at, "Sorrel", 0.6)]),
      ],
      business: {
        ...{ name: "Hobnail and Daughters", logo: null, paper: "a4", pricePerRoll: 70, currency: "EUR" },
      },
      links: [
        {
          ...{ linkId: "link-1", madeBy: "Ama Quill", createdAtMs: full.client.closeAtMs + 14 * hourMs },
          path: "/r/0197a1c2-5d40-7b1e-9f3a-2c5e8d7f6a10.pVw3k8mJ2dQ7rT5xYb1nHc4sLg9fZe6uAaKqWiOoPjM",
        },
      ],
    },
  };
}

/** Of an evening whose booth was silent nothing was counted, and nobody has written a price. */
export function afterSilence(): StubState {
  const whole = aClientReport();
  const none = { sessions: null, prints: null, sheets: null, reprints: null, digitalOnly: null };
  const { openAtMs, closeAtMs } = whole;
  const client = {
    ...{ ...whole, figures: none, quarters: [], busiest: null },
    time: { ...whole.time, readyMs: 0, stoppedMs: 0, unknownMs: whole.time.promisedMs },
    pauses: [{ fromAtMs: openAtMs, toAtMs: closeAtMs, why: "unknown" as const, reason: null }],
  };
  const counts = { sessionsBy: null, sheetsBy: null, sessions: [], sheets: [], difference: null };
  const owner = anOwnerReport({
    ...{ bookingId: "evening", alerts: [], met: null, waits: null, inside: null, cost: null, counts },
    paper: { sheetsUsed: 0, wasted: { change: 0, test: 0, spoilt: 0 }, kitSheets: 400, rolls: [] },
    gaps: [{ fromAtMs: openAtMs, toAtMs: closeAtMs, sessionsEstimate: null, sheetsAfter: null }],
  });
  return { ...afterEvents(), reports: { ...afterEvents().reports, links: [], reports: [{ client, owner }] } };
}
