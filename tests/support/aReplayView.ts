import type { ReplayView } from "@boothward/shared-types/replayView";
import { eveningAtMs, hourMs, minuteMs } from "./aBoothView.ts";

/** Sheets of an invented party by the hour from its opening on. */
const hourly = [18, 38, 62, 74, 46];

/** An evening that is over: open from 18:00 to 23:00, 238 sheets on one roll of 200, changed at 22:10. */
export function aReplayView(over: Partial<ReplayView> = {}): ReplayView {
  const openAtMs = eveningAtMs;
  const closeAtMs = openAtMs + 5 * hourMs;
  const usedAt = (atMs: number) =>
    hourly.reduce((sum, sheets, i) => {
      const part = (atMs - openAtMs - i * hourMs) / hourMs;
      return sum + sheets * Math.min(1, Math.max(0, part));
    }, 0);
  const total = usedAt(closeAtMs);
  return {
    bookingId: "booking-past",
    boothId: "juniper",
    boothName: "Juniper",
    client: "Brook Library",
    place: "Old Mill",
    eventKind: "party",
    zone: "Europe/Berlin",
    openAtMs,
    closeAtMs,
    guests: 120,
    pastEvenings: 3,
    sessions: 149,
    sheetsUsed: total,
    asks: Array.from({ length: 20 }, (_, i) => {
      const atMs = openAtMs + i * 15 * minuteMs;
      const usedToEnd = total - usedAt(atMs);
      const likely = usedToEnd * (0.72 + 0.016 * i);
      const half = 0.42 * usedToEnd * (1 - i / 26) + 6;
      return {
        atMs,
        sheetsLeft: Math.max(0, 200 - usedAt(atMs)),
        demandToEnd: { p10: Math.max(0, likely - half), p50: likely, p90: likely + half },
        emptyAtMs: { p10: null, p50: i < 5 ? null : openAtMs + 4.2 * hourMs, p90: null },
        lastsChance: Math.max(0.02, 0.7 - i * 0.06),
        usedToEnd,
      };
    }),
    used: Array.from({ length: 61 }, (_, i) => {
      const atMs = openAtMs + i * 5 * minuteMs;
      return { atMs, sheetsUsed: usedAt(atMs) };
    }),
    rollChangesAtMs: [openAtMs + 250 * minuteMs],
    summary: {
      asks: 20,
      heldShare: 0.85,
      warnedAtMs: openAtMs + 90 * minuteMs,
      rollEnd: { atMs: openAtMs + 250 * minuteMs, how: "changed" },
      aheadMs: 160 * minuteMs,
      verdict: "warned",
    },
    ...over,
  };
}
