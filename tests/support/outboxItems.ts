import type { AppendItem, StampedItem } from "../../agent/outbox/outbox.ts";

const at = { atMs: Date.UTC(2026, 5, 20, 18), monoMs: 5_000 };

/** A fact as it is appended to the outbox. */
export function aSession(sessionId: string): StampedItem {
  const rest = { durationMs: 40_000, layouts: 1, shots: 3, basis: "layouts" } as const;
  return { ...at, source: "layouts", class: "fact", kind: "session", sessionId, ...rest };
}

/** A reading as it is appended to the outbox. */
export function aWarmth(insideC: number): AppendItem {
  const rest = { sensor: "case", insideC, humidityPct: null };
  return { ...at, source: "thermometer", class: "reading", kind: "inside", ...rest };
}
