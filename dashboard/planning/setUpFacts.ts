import type { StoredItem, Tick } from "@boothward/shared-types";
import { compareItems } from "../booth/compareItems.ts";
import { isTakenBack, takenBackNames, takingsIn } from "../booth/takenBack.ts";

/** What was said and seen of a booth while it is set up, as far as its opening checks ask. */
export type SetUpFacts = {
  /** Lines that are ticked now, by the name of the check. */
  readonly ticks: ReadonlyMap<string, Tick>;
  /** The last sheet that came out since; null: none did. */
  readonly testPrint: TestPrint | null;
  /** The last test alert that came to somebody; null: none did. */
  readonly testHeard: (Tick & { readonly way: string }) | null;
  /** What stands beside the booth's computer, each as it was last seen. */
  readonly peers: readonly PeerSeen[];
  readonly machine: MachineSet | null;
  /** Where the booth stands, as it was last said since; null: nobody said. */
  readonly readiness: Pick<ItemOf<"readiness">, "to" | "atMs"> | null;
};

/** `pitchesEach`: media that one copy took; null: it was seen by a counter, which does not tell. */
export type TestPrint = { readonly atMs: number; readonly pitchesEach: number | null };

export type PeerSeen = Pick<ItemOf<"peer">, "part" | "isThere" | "name" | "atMs">;
export type MachineSet = Pick<ItemOf<"machine">, "isUpdatePending" | "sleepsAfterMin" | "atMs">;

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

/**
 * Folds the facts of a booth, in any order, into what its checks ask. Test prints and test alerts
 * count from `fromAtMs` on, when this booking's set-up began, ticks from `ticksFromAtMs`, as the van is loaded before;
 * what stands at the booth counts as it was last seen.
 */
export function setUpFacts(
  facts: readonly StoredItem[],
  { fromAtMs, ticksFromAtMs }: { readonly fromAtMs: number; readonly ticksFromAtMs: number },
): SetUpFacts {
  const inOrder = facts.toSorted(compareItems);
  const own = inOrder.filter(({ atMs }) => atMs >= fromAtMs);
  return {
    ticks: ticksIn(inOrder.filter(({ atMs }) => atMs >= ticksFromAtMs)),
    testPrint: testPrintIn(inOrder, fromAtMs),
    testHeard: testHeardIn(own),
    peers: peersIn(inOrder),
    machine: inOrder.findLast((fact) => fact.kind === "machine") ?? null,
    readiness: readinessIn(facts, own),
  };
}

function ticksIn(facts: readonly StoredItem[]): Map<string, Tick> {
  const ticks = new Map<string, Tick>();
  for (const fact of facts) {
    if (fact.kind !== "check") continue;
    if (fact.isDone) ticks.set(fact.check, { by: fact.by, atMs: fact.atMs });
    else ticks.delete(fact.check);
  }
  return ticks;
}

/** A job that was printed, or a counter that moved on. */
function testPrintIn(facts: readonly StoredItem[], fromAtMs: number): TestPrint | null {
  const counters = new Map<string, number>();
  let last: TestPrint | null = null;
  for (const fact of facts) {
    const isOwn = fact.atMs >= fromAtMs;
    if (fact.kind === "print" && isOwn && fact.pitches > 0) {
      const pitchesEach = fact.copies > 0 ? fact.pitches / fact.copies : null;
      last = { atMs: fact.atMs, pitchesEach };
    }
    if (fact.kind !== "counter") continue;
    const before = counters.get(fact.queue);
    const hasMoved = before !== undefined && fact.pitchesEver > before;
    // The job that moved it tells more.
    if (isOwn && hasMoved && last === null) last = { atMs: fact.atMs, pitchesEach: null };
    counters.set(fact.queue, fact.pitchesEver);
  }
  return last;
}

function testHeardIn(facts: readonly StoredItem[]): SetUpFacts["testHeard"] {
  const last = facts.findLast((fact) => fact.kind === "testHeard");
  return last === undefined ? null : { by: last.by, way: last.way, atMs: last.atMs };
}

/** A word that was taken back was never said. */
function readinessIn(facts: readonly StoredItem[], own: readonly StoredItem[]): SetUpFacts["readiness"] {
  const takenBack = takenBackNames(takingsIn(facts));
  const last = own.findLast((fact) => fact.kind === "readiness" && !isTakenBack(fact, takenBack));
  return last?.kind === "readiness" ? { to: last.to, atMs: last.atMs } : null;
}

function peersIn(facts: readonly StoredItem[]): PeerSeen[] {
  const peers = new Map<string, PeerSeen>();
  for (const fact of facts) if (fact.kind === "peer") peers.set(`${fact.part} ${fact.source}`, fact);
  return [...peers.values()];
}
