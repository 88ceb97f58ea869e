import * as z from "zod";
import { readWindowsMoment } from "./windowsMoment.ts";

/**
 * One line of the script. Windows leaves fields out or empty as it pleases; PowerShell 5.1 makes a bare object
 * of a list of one, nothing of an empty list, and now and then `{value, Count}` of any.
 */
const maybeNumber = z
  .number()
  .nullish()
  .transform((figure) => figure ?? null);
const maybeCount = z
  .number()
  .nullish()
  .transform((figure) => (figure === null || figure === undefined || figure < 0 ? null : Math.floor(figure)));

const windowsPrinter = z.object({
  Name: z.string(),
  WorkOffline: z
    .boolean()
    .nullish()
    .transform((word) => word ?? null),
  PrinterStatus: maybeNumber,
  ExtendedPrinterStatus: maybeNumber,
  DetectedErrorState: maybeNumber,
  ExtendedDetectedErrorState: maybeNumber,
});
export type WindowsPrinter = z.infer<typeof windowsPrinter>;

const windowsJob = z.object({
  /** "Queue, 12" */
  Name: z.string(),
  JobId: z.int().min(0),
  StatusMask: maybeCount,
  PagesPrinted: maybeCount,
  TotalPages: maybeCount,
  TimeSubmitted: z
    .string()
    .nullish()
    .transform((text) => (text === null || text === undefined ? null : readWindowsMoment(text))),
});
export type WindowsJob = z.infer<typeof windowsJob>;

const windowsCounter = z.object({ Name: z.string(), TotalPagesPrinted: maybeCount });

function rowsOf<Row extends z.ZodType>(row: Row) {
  return z.preprocess(asList, z.array(row));
}

function asList(found: unknown): unknown {
  if (found === null || found === undefined) return [];
  if (Array.isArray(found)) return found;
  if (typeof found === "object" && "value" in found && "Count" in found) return asList(found.value);
  return [found];
}

const spoolerLine = z.object({
  version: z.literal(1),
  printers: rowsOf(windowsPrinter),
  jobs: rowsOf(windowsJob),
  counters: rowsOf(windowsCounter),
  /** What could not be read, and Windows' own words for it. */
  faults: z
    .object({ printers: z.string(), jobs: z.string(), counters: z.string() })
    .partial()
    .nullish()
    .transform((faults) => faults ?? {}),
});
export type SpoolerLine = z.infer<typeof spoolerLine>;

/** What one line says of one queue. */
export type QueueLook = {
  readonly printer: WindowsPrinter;
  /** null: they could not be read, which is not the same as none. */
  readonly jobs: readonly WindowsJob[] | null;
  /** Pages since the spooler began to count; null: no counter for this queue. */
  readonly pagesEver: number | null;
};

/** Takes a line apart; null if it is none of the script's. */
export function readSpoolerLine(text: string): SpoolerLine | null {
  try {
    return spoolerLine.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}

/** What a line says of the queue of this name, or why it says nothing. Windows' names know no upper and lower case. */
export function lookAtQueue(
  { printers, jobs, counters, faults }: SpoolerLine,
  queue: string,
): QueueLook | { readonly fault: "unreadable" | "notFound"; readonly detail: string } {
  if (faults.printers !== undefined)
    return { fault: "unreadable", detail: `Windows does not show its printers: ${faults.printers}` };
  const printer = printers.find(({ Name }) => isSameName(Name, queue));
  if (!printer) {
    const detail = `Windows has no printer "${queue}", or its print spooler is not running; "agent survey" lists the names`;
    return { fault: "notFound", detail };
  }
  const own = jobs.filter(({ Name }) => isSameName(Name.slice(0, Name.lastIndexOf(",")), queue));
  const counter = counters.find(({ Name }) => isSameName(counterName(Name), counterName(queue)));
  const pagesEver = faults.counters === undefined ? (counter?.TotalPagesPrinted ?? null) : null;
  return { printer, jobs: faults.jobs === undefined ? own : null, pagesEver };
}

function isSameName(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}

/** Counters may be called by the printer's name with letters replaced that such names must not have (from memory). */
function counterName(name: string): string {
  return name
    .replace(/[\\/#]/g, "_")
    .replaceAll("(", "[")
    .replaceAll(")", "]");
}
