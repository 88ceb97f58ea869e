import type { Day, DayBooth } from "./day.ts";
import { type Printing, sheetsLeft } from "./printing.ts";
import type { MinuteLine } from "./scenarioLine.ts";

/** What a printer and its queue let be seen of a day's printing: prints, states, jobs waiting, meter. */
export function printerLines(booth: DayBooth, day: Day, printing: Printing): MinuteLine[] {
  const atStart = day.startMin;
  return [
    ...printLines(booth, printing),
    ...stateLines(booth, printing, atStart),
    ...queueLines(booth, printing, atStart),
    ...meterLines(booth, printing, atStart),
  ];
}

function printLines(booth: DayBooth, { jobs }: Printing): MinuteLine[] {
  const { queue } = booth.prints;
  return jobs.map(({ doneMin, copies, pitches }, i) => ({
    atMin: doneMin,
    item: {
      class: "fact",
      kind: "print",
      printId: `${booth.name}-print-${String(i + 1)}`,
      copies,
      pitches,
      queue,
      basis: "jobs",
      sessionId: null,
      size: null,
    },
  }));
}

/** The state wherever it may have changed, said only when it did. */
function stateLines(booth: DayBooth, { jobs, stops }: Printing, startMin: number): MinuteLine[] {
  const edges = [
    startMin,
    ...jobs.flatMap((job) => [job.fromMin, job.doneMin]),
    ...stops.flatMap((stop) => [stop.fromMin, stop.toMin]),
  ];
  return changes(edges, (atMin) => {
    const now = stops.filter((stop) => stop.fromMin <= atMin && atMin < stop.toMin);
    const isBusy = jobs.some((job) => job.fromMin <= atMin && atMin < job.doneMin);
    return {
      class: "fact",
      kind: "printerState",
      queue: booth.prints.queue,
      state: now.length > 0 ? "stopped" : isBusy ? "processing" : "idle",
      reasons: now.map((stop) => stop.reason),
      message: now[0]?.message ?? null,
    };
  });
}

function queueLines(booth: DayBooth, { jobs }: Printing, startMin: number): MinuteLine[] {
  const edges = [startMin, ...jobs.flatMap((job) => [job.sentMin, job.doneMin])];
  return changes(edges, (atMin) => ({
    class: "reading",
    kind: "queue",
    queue: booth.prints.queue,
    queuedJobs: jobs.filter((job) => job.sentMin <= atMin && atMin < job.doneMin).length,
  }));
}

function meterLines(booth: DayBooth, printing: Printing, startMin: number): MinuteLine[] {
  const { meter } = booth;
  if (meter === null) return [];
  const edges = [
    startMin,
    ...printing.jobs.map((job) => job.doneMin),
    ...printing.fitted.map((one) => one.atMin),
  ];
  return changes(edges, (atMin) => {
    const left = sheetsLeft(booth.booking.sheetsLoaded, printing, atMin);
    return {
      class: "fact",
      kind: "media",
      queue: booth.prints.queue,
      part: "kit",
      sheetsLeft: meter.kind === "sheets" ? left : null,
      leftPct: meter.kind === "percent" ? steppedPct(left / booth.kitSheets, meter.stepPct) : null,
      ageMs: 0,
    };
  });
}

/** A stepped meter stays on a step until the next one is reached: 400 sheets in steps of 10 % say 100 down to 361. */
function steppedPct(share: number, stepPct: number): number {
  return Math.ceil(Math.round(share * 1e9) / 1e7 / stepPct) * stepPct;
}

/** One line for each edge at which the item differs from the one before. */
function changes(edges: readonly number[], itemAt: (atMin: number) => MinuteLine["item"]): MinuteLine[] {
  const lines: MinuteLine[] = [];
  let before = "";
  for (const atMin of edges.filter(Number.isFinite).toSorted((a, b) => a - b)) {
    const item = itemAt(atMin);
    const said = JSON.stringify(item);
    if (said !== before) lines.push({ atMin, item });
    before = said;
  }
  return lines;
}
