import type { NewItem } from "@boothward/shared-types";
import type { ScenarioItem, ScenarioLine } from "../../seeds/scenarioLine.ts";

/** A scenario in which each item can be told from every other, and what must be counted at its end. */
export type DenseScenario = {
  readonly lines: ScenarioLine[];
  /** The identity of each item, in order. */
  readonly identities: readonly string[];
  readonly sessions: number;
  readonly pitches: number;
};

/**
 * Items at a steady rate, facts that are counted once by their id (print, session) as well as facts and
 * readings that nothing but the link's own numbers keeps from being stored twice (power, queue).
 */
export function denseScenario(name: string, itemsASecond: number, lengthMs: number): DenseScenario {
  const items: ScenarioItem[] = [];
  for (let i = 1; i <= Math.floor((itemsASecond * lengthMs) / 1000); i++)
    items.push({ atMs: Math.round((i * 1000) / itemsASecond), item: itemOf(name, i) });
  const header = { scenario: name, lengthMs };
  return {
    lines: [header, ...items],
    identities: items.map(({ item }) => identityOf(item)),
    sessions: items.filter(({ item }) => item.kind === "session").length,
    pitches: items.reduce((sum, { item }) => sum + (item.kind === "print" ? item.pitches : 0), 0),
  };
}

function itemOf(name: string, i: number): NewItem {
  const queue = "faults";
  switch (i % 4) {
    case 0:
      return { class: "fact", kind: "power", isOnMains: true, batteryPct: i / 1000 };
    case 1:
      return {
        class: "fact",
        kind: "session",
        sessionId: `${name}-${String(i)}`,
        durationMs: null,
        layouts: 1,
        shots: null,
        basis: "layouts",
      };
    case 2: {
      const pitches = 1 + (i % 3);
      return {
        class: "fact",
        kind: "print",
        printId: `${name}-${String(i)}`,
        copies: pitches,
        pitches,
        queue,
        basis: "jobs",
        sessionId: null,
        size: null,
      };
    }
    default:
      return { class: "reading", kind: "queue", queue, queuedJobs: i };
  }
}

/** What tells an item of a dense scenario from all others of its booth, whatever its stamp. */
export function identityOf(item: NewItem): string {
  switch (item.kind) {
    case "session":
      return `session ${item.sessionId}`;
    case "print":
      return `print ${item.printId} ${String(item.pitches)}`;
    case "power":
      return `power ${String(item.batteryPct)}`;
    case "queue":
      return `queue ${String(item.queuedJobs)}`;
    default:
      return `not of a dense scenario: ${item.kind}`;
  }
}
