import type { Booking, KnownItem } from "@boothward/shared-types";
import { seededDice, type Dice } from "../../../seeds/dice.ts";

const secondMs = 1_000;
const minuteMs = 60 * secondMs;
const hourMs = 60 * minuteMs;

/** An agent is started so long before the doors and stopped so long after the close. */
const around = { beforeMs: 2 * hourMs, afterMs: hourMs };

/** An item before it has its number. */
type Unnumbered<T> = T extends unknown ? Omit<T, "seq"> : never;
type Made = Unnumbered<KnownItem>;

/**
 * What an agent says of one evening up to `throughAtMs`, in its order: guests by the quarter-hour, prints, the
 * printer's meter, changes of the roll, a stop now and then; and `readings` readings, evenly.
 */
export function eveningItems(booking: Booking, readings: number, throughAtMs: number): KnownItem[] {
  const dice = seededDice(booking.openAtMs % 1_000_003, `season ${booking.bookingId}`);
  const items = [...eveningFacts(booking, dice), ...eveningReadings(booking, readings, dice)];
  return items
    .filter(({ atMs }) => atMs <= throughAtMs)
    .sort((a, b) => a.atMs - b.atMs)
    .map((item, at) => ({ ...item, seq: at + 1 }));
}

function eveningFacts(booking: Booking, dice: Dice): Made[] {
  const { bookingId, openAtMs, closeAtMs } = booking;
  const queue = "dye";
  const beganAtMs = openAtMs - around.beforeMs;
  const facts: Made[] = [];
  const add = (atMs: number, said: Record<string, unknown>) => {
    const stamp = { class: "fact", source: "booth", atMs: Math.floor(atMs), monoMs: atMs - beganAtMs };
    facts.push({ ...stamp, ...said } as unknown as Made);
  };
  add(beganAtMs, {
    ...{ kind: "agentStarted", version: "0.1.0", platform: "linux", hostName: "tablet", scenario: null },
  });
  add(beganAtMs, { kind: "readiness", to: "packed", by: "Ama" });
  add(beganAtMs, { kind: "printerState", queue, state: "idle", reasons: [], message: null });
  add(openAtMs - minuteMs, { kind: "readiness", to: "open", by: "Ama" });
  let left = 400;
  const show = (atMs: number) =>
    add(atMs, { kind: "media", queue, part: "kit", sheetsLeft: left, leftPct: null, ageMs: null });
  show(beganAtMs);
  let number = 0;
  for (let atMs = openAtMs + dice() * 5 * minuteMs; atMs < closeAtMs; atMs += (0.6 + dice() * 3) * minuteMs) {
    number += 1;
    add(atMs, {
      ...{ kind: "session", sessionId: `${bookingId} ${number}`, durationMs: 40 * secondMs },
      ...{ layouts: 1, shots: 3, basis: "layouts" },
    });
    if (dice() < 0.08) continue;
    const copies = 1 + Math.floor(dice() * 3);
    add(atMs + 18 * secondMs, {
      ...{ kind: "print", printId: `${bookingId} ${number}`, copies, pitches: copies, queue },
      ...{ basis: "jobs", sessionId: null, size: "4x6" },
    });
    left -= copies;
    show(atMs + 19 * secondMs);
    if (left > 3) continue;
    const reasons = ["media-empty-error"];
    add(atMs + 25 * secondMs, { kind: "printerState", queue, state: "stopped", reasons, message: null });
    left = 400;
    add(atMs + 3 * minuteMs, { kind: "rollFitted", sheets: 400, by: "Ama" });
    add(atMs + 3 * minuteMs, { kind: "waste", pitches: 2, cause: "change", by: "Ama" });
    show(atMs + 3 * minuteMs);
    add(atMs + 3.2 * minuteMs, { kind: "printerState", queue, state: "idle", reasons: [], message: null });
    atMs += 3 * minuteMs;
  }
  add(closeAtMs, { kind: "readiness", to: "closing", by: "Ama" });
  add(closeAtMs + around.afterMs, { kind: "readiness", to: "packedDown", by: "Ama" });
  return facts;
}

/** Temperatures, the queue and the computer in turn. */
function eveningReadings({ openAtMs, closeAtMs }: Booking, count: number, dice: Dice): Made[] {
  const fromAtMs = openAtMs - around.beforeMs;
  const everyMs = (closeAtMs + around.afterMs - fromAtMs) / Math.max(1, count);
  return Array.from({ length: count }, (_, at): Made => {
    const atMs = Math.floor(fromAtMs + at * everyMs);
    const stamp = { class: "reading", source: "booth", atMs, monoMs: atMs - fromAtMs } as const;
    const insideC = 24 + Math.round(dice() * 80) / 10;
    switch (at % 4) {
      case 0:
        return { ...stamp, kind: "queue", queue: "dye", queuedJobs: Math.floor(dice() * 3) };
      case 1:
        return {
          ...{ ...stamp, kind: "host", memoryUsedPct: 40, loadPct: 10, processorC: 50 },
          ...{ diskFreeMb: 9_000, batteryPct: null, networkUp: true },
        };
      default:
        return { ...stamp, kind: "inside", sensor: "printer", insideC, humidityPct: 45 };
    }
  });
}
