import type { FaultWord, StoredItem } from "@boothward/shared-types";
import { withEntry } from "./keyed.ts";

/** The program at the booth that was last started. */
export type AgentSeen = {
  readonly startedAtMs: number;
  readonly version: string;
  readonly hostName: string;
  readonly scenario: string | null;
};

/** What the booth's computer runs on. */
export type PowerSeen = {
  readonly isOnMains: boolean;
  readonly batteryPct: number | null;
  /** When it went on mains, or on battery. */
  readonly sinceAtMs: number;
  readonly atMs: number;
};

/** How the booth's computer is set for the night; null: it cannot be seen. */
export type MachineSeen = {
  readonly isUpdatePending: boolean | null;
  readonly sleepsAfterMin: number | null;
  readonly source: string;
  /** When it was first said as it is now. */
  readonly sinceAtMs: number;
  readonly saidAtMs: number;
};

/** A source without a value. */
export type SourceFault = {
  readonly source: string;
  readonly fault: FaultWord;
  readonly detail: string | null;
  readonly sinceAtMs: number;
};

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

/** Takes in whether the booth is on mains. */
export function powerOf(before: PowerSeen | null, item: ItemOf<"power">): PowerSeen {
  const { isOnMains, batteryPct, atMs } = item;
  const sinceAtMs = before?.isOnMains === isOnMains ? before.sinceAtMs : atMs;
  return { isOnMains, batteryPct, sinceAtMs, atMs };
}

/** Takes in how the computer is set. */
export function machineOf(before: MachineSeen | null, item: ItemOf<"machine">): MachineSeen {
  const { isUpdatePending, sleepsAfterMin, source, atMs } = item;
  const isSame = before?.isUpdatePending === isUpdatePending && before.sleepsAfterMin === sleepsAfterMin;
  return {
    isUpdatePending,
    sleepsAfterMin,
    source,
    sinceAtMs: isSame ? before.sinceAtMs : atMs,
    saidAtMs: atMs,
  };
}

/** Takes in that a source lost its value, or has it again. */
export function faultsAfter(
  faults: readonly SourceFault[],
  item: ItemOf<"sourceState">,
): readonly SourceFault[] {
  const { source, fault, detail, atMs } = item;
  if (fault === null) return faults.filter((each) => each.source !== source);
  const before = faults.find((each) => each.source === source);
  const sinceAtMs = before?.fault === fault ? before.sinceAtMs : atMs;
  return withEntry(faults, (each) => each.source, { source, fault, detail, sinceAtMs });
}

/** The agent that began to run. */
export function agentOf(item: ItemOf<"agentStarted">): AgentSeen {
  const { version, hostName, scenario, atMs } = item;
  return { startedAtMs: atMs, version, hostName, scenario };
}
