/** A printer as Windows shows it: idle, without an error. */
export function aWindowsPrinter(over: object = {}): Record<string, unknown> {
  return {
    Name: "Booth",
    WorkOffline: false,
    PrinterStatus: 3,
    ExtendedPrinterStatus: 2,
    DetectedErrorState: 2,
    ExtendedDetectedErrorState: 2,
    ...over,
  };
}

/** A job as Windows shows it: one page, being printed, sent at 18:00:00 and its number of seconds. */
export function aWindowsJob(jobId: number, over: object = {}): Record<string, unknown> {
  const sentAt = new Date(Date.UTC(2031, 5, 14, 18, 0, jobId)).toISOString().replace("Z", "0000Z");
  const figures = { StatusMask: 0x10, PagesPrinted: 0, TotalPages: 1, TimeSubmitted: sentAt };
  return { Name: `Booth, ${jobId}`, JobId: jobId, ...figures, ...over };
}

/** What the spooler's script writes at one look, with its line end. */
export function aSpoolerLine(over: object = {}): string {
  const nothing = { version: 1, printers: [aWindowsPrinter()], jobs: [], counters: [], faults: {} };
  return `${JSON.stringify({ ...nothing, ...over })}\r\n`;
}
