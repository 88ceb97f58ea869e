import { printerNow } from "../booth/printerNow.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";

/** Whether the printer that the agent looks at shows nothing any more: its cable, its switch, or its driver. */
export function judgePrinterUnseen(scene: Scene): Judged {
  const { state, atMs } = scene;
  const matter = "printerUnseen";
  const phase = phaseOf(scene);
  if (phase === "away") return { matter, stands: "clear" };
  const printer = printerNow(state, atMs);
  if (printer === null) return { matter, stands: "unseen" };
  const fault = state.faults.find(({ source }) => source === printer.source);
  if (fault === undefined) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: phase === "open" ? "actNow" : "plan" },
    since: { atMs: fault.sinceAtMs, isAtLatest: false },
    ...{ fault: fault.fault, partName: printer.queue, queuedJobs: printer.queuedJobs },
  };
}
