import type { MoveLine, StockAdvice, StockView } from "@boothward/shared-types/stock";
import { aStockMove } from "../support/aStockMove.ts";
import { at } from "./saturday.ts";
import { allWell } from "./scenes.ts";
import type { StubState } from "./stubDashboard.ts";

const dayMs = 86_400_000;
const hourMs = 3_600_000;
const nowMs = at("18:40");

function line(daysAgo: number, over: Partial<MoveLine>): MoveLine {
  const atMs = nowMs - daysAgo * dayMs;
  const moveId = `line-${daysAgo}`;
  const plain = { isTakenBack: false, isDerived: false, found: null };
  return { ...aStockMove({ moveId, atMs, saidAtMs: atMs, by: "Ama Quill" }), ...plain, ...over };
}

const moves: MoveLine[] = [
  line(0.1, {
    fromPlace: "event:booking-sorrel",
    toPlace: "used",
    why: "used",
    isDerived: true,
    by: "Ben Tansy",
  }),
  line(0.2, { toPlace: "event:booking-sorrel", rolls: 3 }),
  line(1, { toPlace: "case:juniper", rolls: 2, isTakenBack: true }),
  line(2, { fromPlace: "supplier", toPlace: "order", rolls: 12, why: "ordered", orderId: "o2" }),
  line(3, {
    ...{ fromPlace: "unexplained", why: "counted", toPlace: "store", rolls: 0, found: -1 },
    counted: { fullRolls: 9, partials: [158, 64] },
  }),
  line(5, {
    ...{
      fromPlace: "used",
      toPlace: "case:juniper",
      rolls: 0,
      partialSheets: 158,
      why: "returned",
      isDerived: true,
    },
  }),
  line(16, { fromPlace: "order", toPlace: "store", rolls: 12, why: "arrived", orderId: "o1" }),
];

const advice: StockAdvice = {
  ...{ serviceLevel: 0.99, atHand: 17, onOrder: 12, orderByAtMs: nowMs + 12 * dayMs, isLate: false },
  ...{ rolls: 12, neededNow: 24, untilAtMs: nowMs + 182 * dayMs, shortAtMs: null },
  ...{ lead: { meanDays: 11.4, sdDays: 5.2, orders: 3 }, weekly: { mean: 4.2, sd: 2.1, weeks: 18 } },
};

const stock: StockView = {
  places: [
    { place: "store", fullRolls: 14, partials: [158, 64], missing: [] },
    { place: "case:juniper", fullRolls: 2, partials: [158], missing: [] },
    { place: "case:thistle", fullRolls: -1, partials: [], missing: [90] },
    { place: "event:booking-sorrel", fullRolls: 2, partials: [], missing: [] },
    { place: "event:booking-past", fullRolls: 1, partials: [210], missing: [] },
    { place: "order", fullRolls: 12, partials: [], missing: [] },
  ],
  totals: { bought: 60, used: 29, lost: 1, unexplained: 1 },
  orders: [
    {
      ...{ orderId: "o2", rolls: 12, orderedAtMs: nowMs - 2 * dayMs, expectedAtMs: nowMs + 8 * dayMs },
      ...{ note: null, arrivedRolls: 0, arrivedAtMs: null },
    },
  ],
  moves,
  olderBefore: "line-16",
  events: ["marigold", "thistle", "juniper"].map((name, place) => ({
    ...{ bookingId: `booking-${name}`, openAtMs: nowMs + (place + 1) * hourMs },
    ...{ mean: 0.9 + 0.4 * place, high: 1.6 + 0.5 * place },
  })),
  advice,
};

/** Rolls to order in some days; more were put in at Thistle than anybody wrote down. */
export function stockLow(): StubState {
  return { ...allWell(), stock };
}

/** The order should have been made before, and one that was made has not come. */
export function stockLate(): StubState {
  const late = { ...advice, atHand: 4, onOrder: 12, orderByAtMs: nowMs, isLate: true, rolls: 26 };
  const orders = stock.orders.map((order) => ({
    ...{ ...order, orderedAtMs: nowMs - 24 * dayMs, expectedAtMs: nowMs - 9 * dayMs, arrivedRolls: 4 },
  }));
  return { ...allWell(), stock: { ...stock, orders, advice: late } };
}

/** More was used than anybody ever wrote down. */
export function stockUncounted(): StubState {
  const places = [
    { place: "store", fullRolls: 0, partials: [], missing: [] },
    { place: "case:thistle", fullRolls: -2, partials: [], missing: [] },
  ];
  const totals = { bought: 0, used: 2, lost: 0, unexplained: 0 };
  const moves = stock.moves.filter((move) => move.isDerived);
  return {
    ...allWell(),
    stock: { ...stock, places, totals, moves, orders: [], olderBefore: null, advice: null },
  };
}
