import type { PrinterStateWord, StoredItem } from "@boothward/shared-types";
import { keepMs } from "./bins.ts";
import { withEntry } from "./keyed.ts";
import { isPrinterStopped, worstKeywords } from "./printerReasons.ts";

/** What each print queue of a booth last said, and the stretches in which it could not print. */
export type PrinterLedger = {
  readonly printers: readonly PrinterSeen[];
  readonly stops: readonly Stop[];
};

export type PrinterSeen = {
  readonly queue: string;
  readonly source: string;
  readonly state: PrinterStateWord | null;
  /** As sent, suffix kept. */
  readonly reasons: readonly string[];
  readonly message: string | null;
  readonly isStopped: boolean;
  /** When it stopped, or when it came to the state it is in. */
  readonly sinceAtMs: number;
  readonly saidAtMs: number;
};

/** A stretch in which a printer could not print; `toAtMs` null while it lasts. */
export type Stop = {
  readonly queue: string;
  readonly fromAtMs: number;
  readonly toAtMs: number | null;
  /** The worst keyword seen during the stop; "stopped" when the printer gave none. */
  readonly reason: string;
};

type PrinterStateItem = Extract<StoredItem, { kind: "printerState" }>;

export const noPrinters: PrinterLedger = { printers: [], stops: [] };

/** Takes in what a printer says of itself. */
export function foldPrinterState(ledger: PrinterLedger, item: PrinterStateItem): PrinterLedger {
  const { queue, source, state, message, atMs } = item;
  const reasons = item.reasons.filter((reason) => reason !== "none");
  const isStopped = isPrinterStopped(state, reasons);
  const before = ledger.printers.find((each) => each.queue === queue);
  const goesOn = before?.isStopped === isStopped && (isStopped || before.state === state);
  const sinceAtMs = goesOn ? before.sinceAtMs : atMs;
  const printer = { queue, source, state, reasons, message, isStopped, sinceAtMs, saidAtMs: atMs };
  return {
    printers: withEntry(ledger.printers, (each) => each.queue, printer),
    stops: foldStop(ledger.stops, printer),
  };
}

function foldStop(stops: readonly Stop[], printer: PrinterSeen): readonly Stop[] {
  const { queue, saidAtMs: atMs } = printer;
  const open = stops.find((stop) => stop.queue === queue && stop.toAtMs === null);
  if (!printer.isStopped) {
    return open === undefined
      ? stops
      : stops.map((stop) => (stop === open ? { ...stop, toAtMs: atMs } : stop));
  }
  const reason = worstKeywords(printer.reasons)[0] ?? "stopped";
  if (open === undefined) {
    const recent = stops.filter((stop) => stop.toAtMs === null || stop.toAtMs >= atMs - keepMs);
    return [...recent, { queue, fromAtMs: atMs, toAtMs: null, reason }];
  }
  const worst = worstKeywords([open.reason, reason].filter((each) => each !== "stopped"))[0] ?? "stopped";
  return stops.map((stop) => (stop === open ? { ...stop, reason: worst } : stop));
}
