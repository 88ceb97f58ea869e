import type { PrinterStateWord } from "@boothward/shared-types";
import type { WindowsJob, WindowsPrinter } from "./spoolerLine.ts";

/** How a printer is, in IPP's words; what IPP has no word for is kept in the message. */
export type PrinterCondition = {
  /** null: Windows does not know. */
  readonly state: PrinterStateWord | null;
  readonly reasons: readonly string[];
  readonly message: string | null;
};

/** A reason, and Windows' own words where the reason alone would lose what was meant. */
type Meaning = { readonly reason: string; readonly words?: string };

/**
 * Job bits of `StatusMask`. **Source:** Microsoft's documentation of Win32_PrintJob, and of JOB_STATUS_... in
 * winspool.h, which has the same values.
 */
export const jobBits = {
  paused: 0x1,
  error: 0x2,
  deleting: 0x4,
  spooling: 0x8,
  printing: 0x10,
  offline: 0x20,
  paperOut: 0x40,
  printed: 0x80,
  deleted: 0x100,
  blocked: 0x200,
  userIntervention: 0x400,
} as const;

/** 0 unknown, 1 other and 2 no error are the same in both columns of error states. */
const shared: readonly (readonly [number, Meaning])[] = [
  [1, { reason: "other" }],
  [3, { reason: "media-low-warning" }],
  [4, { reason: "media-empty-error" }],
  // A dye-sublimation printer has no toner: its driver says ribbon by the only word Windows has.
  [5, { reason: "marker-supply-low-warning" }],
  [6, { reason: "marker-supply-empty-error" }],
  [7, { reason: "door-open-error" }],
  [8, { reason: "media-jam-error" }],
];
const offline: Meaning = { reason: "timed-out-error", words: "offline" };
const service: Meaning = { reason: "other", words: "service requested" };
const binFull: Meaning = { reason: "output-area-full-error" };

/** **Source:** Microsoft's documentation of Win32_Printer.DetectedErrorState. */
const errorStates = new Map<number, Meaning>([...shared, [9, offline], [10, service], [11, binFull]]);

/** **Source:** Microsoft's documentation of Win32_Printer.ExtendedDetectedErrorState, from memory from 9 on. */
const extendedErrorStates = new Map<number, Meaning>([
  ...shared,
  [9, service],
  [10, binFull],
  [11, { reason: "other-error", words: "paper problem" }],
  [12, { reason: "other", words: "cannot print a page" }],
  [13, { reason: "other-error", words: "wants a person" }],
  [14, { reason: "other", words: "out of memory" }],
]);

/**
 * PrinterStatus and ExtendedPrinterStatus, the same up to 7. **Source:** Microsoft's documentation of
 * Win32_Printer; those past 7 from memory.
 */
const states = new Map<number, PrinterStateWord>([
  [3, "idle"],
  [4, "processing"],
  [5, "processing"],
  [6, "stopped"],
  [7, "stopped"],
  [8, "stopped"],
  [10, "processing"],
  [13, "processing"],
  [14, "processing"],
  [17, "processing"],
]);
const statusMeanings = new Map<number, Meaning>([
  [7, offline],
  [8, { reason: "paused" }],
  [9, { reason: "other", words: "in error" }],
]);

/** What a waiting job says of the printer; it often knows more than the printer's own status. */
const jobMeanings: readonly (readonly [number, Meaning])[] = [
  [jobBits.paperOut, { reason: "media-empty-error" }],
  [jobBits.offline, offline],
  [jobBits.userIntervention, { reason: "other-error", words: "wants a person" }],
  [jobBits.error, { reason: "other-error", words: "a print job is in error" }],
  [jobBits.blocked, { reason: "other", words: "the driver cannot print a job" }],
];

/**
 * How the printer is by all that Windows says of it. Most drivers say little: "idle" is what Windows believes,
 * not what the printer does, and what it does not know stays unknown.
 */
export function printerCondition(printer: WindowsPrinter, jobs: readonly WindowsJob[]): PrinterCondition {
  const statuses = [printer.ExtendedPrinterStatus, printer.PrinterStatus];
  const meanings = [
    printer.WorkOffline === true ? { reason: "timed-out-error", words: "works offline" } : undefined,
    ...statuses.map((status) => statusMeanings.get(status ?? 0)),
    errorStates.get(printer.DetectedErrorState ?? 0),
    extendedErrorStates.get(printer.ExtendedDetectedErrorState ?? 0),
    ...jobs.flatMap((job) => meaningsOf(job)),
  ].filter((meaning) => meaning !== undefined);
  const reasons = withoutVague([...new Set(meanings.map(({ reason }) => reason))]);
  const words = [...new Set(meanings.flatMap((meaning) => meaning.words ?? []))];
  return {
    state: stateOf(statuses, reasons, jobs),
    reasons,
    message: words.length === 0 ? null : `Windows says: ${words.join(", ")}`.slice(0, 200),
  };
}

function meaningsOf({ StatusMask }: WindowsJob): readonly Meaning[] {
  const mask = StatusMask ?? 0;
  return jobMeanings.filter(([bit]) => (mask & bit) !== 0).map(([, meaning]) => meaning);
}

/** "other" says nothing where something else is said, and where it is said with its weight. */
function withoutVague(reasons: readonly string[]): readonly string[] {
  const clear = reasons.filter((reason) => !reason.startsWith("other"));
  if (clear.length > 0) return clear;
  return reasons.includes("other-error") ? ["other-error"] : reasons;
}

function stateOf(
  statuses: readonly (number | null)[],
  reasons: readonly string[],
  jobs: readonly WindowsJob[],
): PrinterStateWord | null {
  const words = statuses.flatMap((status) => states.get(status ?? 0) ?? []);
  if (reasons.some((reason) => reason.endsWith("-error") || reason === "paused")) return "stopped";
  if (words.includes("stopped")) return "stopped";
  const isPrinting = jobs.some(({ StatusMask }) => ((StatusMask ?? 0) & jobBits.printing) !== 0);
  return isPrinting || words.includes("processing") ? "processing" : (words[0] ?? null);
}
