import type { BoothState } from "./boothState.ts";
import type { PrinterSeen } from "./printerLedger.ts";

/** A printer as it was last seen, with its queue. */
export type PrinterNow = PrinterSeen & {
  readonly queuedJobs: number | null;
  /** Whether its source has no value now: then the rest is what was, not what is. */
  readonly isSourceLost: boolean;
};

type PrinterFacts = Pick<BoothState, "printing" | "readings" | "faults" | "agent">;

/** An agent says each printer's state when it starts; one not said by then is no longer looked at. */
const saidAfterStartMs = 2 * 60_000;

/**
 * The booth's printer; of several the one that is stopped longest, else the one heard last. Null when no
 * printer is known: that is not a printer that is well.
 */
export function printerNow(state: PrinterFacts, atMs: number): PrinterNow | null {
  const printers = state.printing.printers.filter((printer) => isLookedAt(printer, state, atMs));
  const stopped = printers.filter((printer) => printer.isStopped);
  const printer =
    stopped.length > 0
      ? stopped.reduce((a, b) => (b.sinceAtMs < a.sinceAtMs ? b : a))
      : printers.reduce<PrinterSeen | null>((a, b) => (a === null || b.saidAtMs > a.saidAtMs ? b : a), null);
  if (printer === null) return null;
  const seen = state.readings.queues.find((each) => each.queue === printer.queue);
  const isSourceLost = state.faults.some((fault) => fault.source === printer.source);
  return { ...printer, queuedJobs: seen?.queuedJobs ?? null, isSourceLost };
}

/** Whether the agent at the booth still tells of a printer, or of another thing that it names when it starts. */
export function isLookedAt(
  printer: Pick<PrinterSeen, "saidAtMs">,
  { agent }: Pick<BoothState, "agent">,
  atMs: number,
): boolean {
  if (agent === null || printer.saidAtMs >= agent.startedAtMs) return true;
  return atMs - agent.startedAtMs < saidAfterStartMs;
}
