import type { ChildCommand, KeptChild } from "./keepChild.ts";
import { keepChild } from "./keepChild.ts";
import type { WindowsPrinter } from "./spoolerLine.ts";
import { readSpoolerLine } from "./spoolerLine.ts";
import { powerShellCommand } from "./spoolerScript.ts";

/** A cold PowerShell on a small tablet; three times this for its first word. */
const silentMs = 10_000;
const everyMs = 2_000;

/** The printers Windows knows, asked for once; rejects with the reason when it does not say. */
export async function listPrinters(
  command: ChildCommand = powerShellCommand({ queue: null, everyMs }),
): Promise<readonly WindowsPrinter[]> {
  let child: KeptChild | null = null;
  try {
    return await new Promise((resolve, reject) => {
      child = keepChild(command, {
        silentMs,
        restartMs: everyMs,
        // It is ended after its first word, and never started anew.
        clock: () => ({ wallMs: 0, monoMs: 0 }),
        onLine(text) {
          const line = readSpoolerLine(text);
          if (line?.faults.printers !== undefined) reject(new Error(line.faults.printers));
          else if (line) resolve(line.printers);
          return line !== null;
        },
        onTrouble: ({ detail }) => reject(new Error(detail)),
      });
    });
  } finally {
    await (child as KeptChild | null)?.close();
  }
}
