import { between, type Dice } from "../../../seeds/dice.ts";
import { minuteMs, type Overlay, type Span } from "./evening.ts";
import {
  at,
  inOrder,
  isFree,
  onBattery,
  outOfSight,
  peerGone,
  reworded,
  withIncident,
  withOverlay,
  type Drawn,
} from "./troubles.ts";

/**
 * What happens on any evening and nobody should hear of: the Wi-Fi drops for a minute or two, a tablet sleeps, a
 * camera's battery is changed, a printer cools its head, a print server restarts, a plug is moved, a thermometer
 * spikes. How often is our own guess.
 */
export function everyday(drawn: Drawn, taken: readonly Span[], dice: Dice): Drawn {
  const { openMin, closeMin } = drawn.booth.booking;
  const eachOf = (perHour: number, lengthMin: () => number): Span[] => {
    const spans: Span[] = [];
    for (let min = 20; ;) {
      min -= (60 / perHour) * Math.log(1 - dice());
      const span = { fromMin: min, toMin: min + lengthMin() };
      if (span.toMin > closeMin) return spans.filter((each) => isFree(each, taken));
      spans.push(span);
    }
  };
  const drops = eachOf(0.5, () => (dice() < 0.7 ? between(dice, 0.2, 1.2) : between(dice, 1.2, 2.5)));
  const sleeps = eachOf(0.7, () => between(dice, 0.4, 1.8));
  const batteries = eachOf(0.25, () => between(dice, 0.1, 0.4));
  const restarts = eachOf(0.2, () => between(dice, 0.1, 0.4));
  const plugs = eachOf(0.15, () => between(dice, 0.05, 0.25));
  const pauses = eachOf(0.5, () => between(dice, 0.35, 0.8)).filter(({ fromMin }) => fromMin > openMin);
  const overlays: Overlay[] = [
    furnished(openMin),
    ...sleeps.map((span) => peerGone("tablet", span)),
    ...batteries.map((span) => peerGone("camera", span)),
    ...restarts.map(outOfSight),
    ...plugs.map((span) => onBattery(span, () => 99)),
    ...pauses.map(({ fromMin }) => reworded(freeAfter(fromMin, taken), "processing", [])),
    spikes(dice),
    queueEachMinute,
  ];
  const paused = pauses.reduce<Drawn>(
    (before, { fromMin, toMin }) =>
      withIncident(before, { kind: "jam", atMin: fromMin, forMin: toMin - fromMin }),
    { ...drawn, silences: [...drawn.silences, ...drops] },
  );
  return overlays.reduce<Drawn>(withOverlay, paused);
}

/** A pause comes with the next sheet: up to so much later. */
const nextSheetMin = 60;

function freeAfter(fromMin: number, taken: readonly Span[]): Span {
  const next = taken.find((slot) => slot.fromMin > fromMin)?.fromMin ?? Infinity;
  // Offsets are whole milliseconds, and may be rounded to before it.
  return { fromMin: fromMin - 1 / minuteMs, toMin: Math.min(fromMin + nextSheetMin, next) };
}

/** What is said once: the agent's start, what stands beside the computer, and the test alert that arrived. */
export function furnished(openMin: number): Overlay {
  return (items) => {
    const agent = { version: "0.1.0", platform: "linux", hostName: "tablet", scenario: null };
    return inOrder([
      at(0, { class: "fact", kind: "agentStarted", ...agent }),
      ...(["camera", "tablet", "router", "uplink"] as const).map((part) =>
        at(0.2, { class: "fact", kind: "peer", part, isThere: true, name: part }),
      ),
      at(0.2, { class: "fact", kind: "machine", isUpdatePending: false, sleepsAfterMin: 0 }),
      at(Math.max(0.3, openMin - 70), {
        class: "fact",
        kind: "testHeard",
        role: "attendant",
        way: "push",
        by: "Ama Quill",
      }),
      ...items,
    ]);
  };
}

/** A digital thermometer's power-on value, or a lost bit, about every five hours. */
function spikes(dice: Dice): Overlay {
  const seed = dice();
  return (items) =>
    items.map((line, index) => {
      if (line.item.kind !== "inside" || (index * 0.6180339887 + seed) % 1 > 1 / 300) return line;
      const insideC = line.atMs % (2 * minuteMs) === 0 ? 85 : line.item.insideC + 9;
      return { atMs: line.atMs, item: { ...line.item, insideC } };
    });
}

/** A queue's length is said each minute, also where it stays as it is. */
const queueEachMinute: Overlay = (items) => {
  const queues = items.filter(({ item }) => item.kind === "queue");
  return inOrder([
    ...items,
    ...queues.flatMap(({ atMs, item }, index) => {
      const nextMs = queues[index + 1]?.atMs ?? atMs + minuteMs;
      const count = Math.max(0, Math.ceil((nextMs - atMs) / minuteMs) - 1);
      return Array.from({ length: count }, (_, minute) => ({ atMs: atMs + (minute + 1) * minuteMs, item }));
    }),
  ]);
};
