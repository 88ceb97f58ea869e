import type { ItemKind, StoredItem } from "@boothward/shared-types";

export type ItemOf<K extends ItemKind> = Extract<StoredItem, { kind: K }>;

/** 18:00 UTC on an invented Saturday. */
export const sixAtMs = Date.UTC(2026, 5, 20, 18, 0);
export const minuteMs = 60_000;
export const hourMs = 3_600_000;

const stamp = {
  seq: 1,
  atMs: sixAtMs,
  monoMs: 0,
  source: "booth",
  boothId: "juniper",
  bootId: "boot-1",
  receivedAtMs: sixAtMs,
};
const fact = { ...stamp, class: "fact" } as const;
const reading = { ...stamp, class: "reading" } as const;

const plain: { readonly [K in ItemKind]: ItemOf<K> } = {
  session: {
    ...fact,
    ...{ kind: "session", sessionId: "s-1", durationMs: null, layouts: 1, shots: 3, basis: "layouts" },
  },
  sessionBegun: { ...fact, kind: "sessionBegun", sessionId: "s-1" },
  print: {
    ...fact,
    ...{ kind: "print", printId: "p-1", copies: 1, pitches: 1, queue: "dye", basis: "jobs" },
    ...{ sessionId: null, size: null },
  },
  counter: { ...fact, kind: "counter", queue: "dye", pitchesEver: 1_000 },
  printerState: { ...fact, kind: "printerState", queue: "dye", state: "idle", reasons: [], message: null },
  media: {
    ...fact,
    ...{ kind: "media", queue: "dye", part: "kit", sheetsLeft: 400, leftPct: null, ageMs: null },
  },
  rollFitted: { ...fact, kind: "rollFitted", sheets: 400, by: null },
  rollTakenOff: { ...fact, kind: "rollTakenOff", sheetsLeft: 60, by: "Ama" },
  rollDenied: { ...fact, kind: "rollDenied", by: "Ama" },
  waste: { ...fact, kind: "waste", pitches: 2, cause: "change", by: "Ama" },
  takenBack: { ...fact, kind: "takenBack", factBootId: "dashboard", factSeq: 1, by: "Ama" },
  authority: { ...fact, kind: "authority", sessionsBy: null, pitchesBy: null, by: "Ama" },
  correction: { ...fact, kind: "correction", sheetsLeft: 100, by: "Ama" },
  readiness: { ...fact, kind: "readiness", to: "open", by: null },
  extended: {
    ...fact,
    ...{ kind: "extended", bookingId: "booking-1", closeAtMs: sixAtMs + 5 * hourMs, by: "Ama" },
  },
  power: { ...fact, kind: "power", isOnMains: true, batteryPct: null },
  peer: { ...fact, kind: "peer", part: "camera", isThere: true, name: null },
  machine: { ...fact, kind: "machine", isUpdatePending: false, sleepsAfterMin: 0 },
  testHeard: { ...fact, kind: "testHeard", role: "attendant", way: "push", by: "Ama" },
  check: { ...fact, kind: "check", check: "whiteBalance", isDone: true, by: "Ama" },
  sourceState: { ...fact, kind: "sourceState", fault: "timeout", detail: null },
  agentStarted: {
    ...fact,
    ...{ kind: "agentStarted", version: "0.1.0", platform: "linux", hostName: "tablet", scenario: null },
  },
  clockStepped: { ...fact, kind: "clockStepped", stepMs: 5000 },
  thinned: { ...fact, kind: "thinned", readings: 10 },
  queue: { ...reading, kind: "queue", queue: "dye", queuedJobs: 0 },
  inside: { ...reading, kind: "inside", sensor: "printer", insideC: 25, humidityPct: null },
  outside: { ...reading, kind: "outside", sensor: "outside", outsideC: 18 },
  host: {
    ...reading,
    ...{ kind: "host", memoryUsedPct: 40, loadPct: 10, processorC: 50, diskFreeMb: 9000, batteryPct: null },
    networkUp: true,
  },
};

/** An item of a booth as the dashboard holds it, at 18:00; `over` changes what a test is about. */
export function aStoredItem<K extends ItemKind>(kind: K, over: Partial<ItemOf<K>> = {}): ItemOf<K> {
  return { ...plain[kind], ...over };
}

/** One line of a story: minutes after 18:00, the kind, and what is special about it. */
export type StoryLine = {
  [K in ItemKind]: readonly [minute: number, kind: K, over?: Partial<ItemOf<K>>];
}[ItemKind];

/** Items of one boot in the order told; prints and sessions get ids of their own unless they say one. */
export function aStory(lines: readonly StoryLine[]): StoredItem[] {
  return lines.map(([minute, kind, over], at) => {
    const own = { seq: at + 1, atMs: sixAtMs + minute * minuteMs, receivedAtMs: sixAtMs + minute * minuteMs };
    const ids =
      kind === "print" ? { printId: `p-${at}` } : kind === "session" ? { sessionId: `s-${at}` } : {};
    return { ...plain[kind], ...own, ...ids, ...over } as StoredItem;
  });
}

/** Single-sheet prints, evenly from one minute to another. */
export function printsFrom(fromMinute: number, toMinute: number, count: number, pitches = 1): StoryLine[] {
  const step = (toMinute - fromMinute) / count;
  return Array.from(
    { length: count },
    (_, at) => [fromMinute + (at + 1) * step, "print", { pitches }] as const,
  );
}
