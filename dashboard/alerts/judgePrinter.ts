import { printerNow, type PrinterNow } from "../booth/printerNow.ts";
import { worstKeywords } from "../booth/printerReasons.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, sparesLeft, type Scene } from "./scene.ts";

/** What somebody at the booth does on purpose, as when a roll is changed (two or three minutes). */
const attendedKeywords: ReadonlySet<string> = new Set([
  "cover-open",
  "door-open",
  "interlock-open",
  "paused",
]);
const attendedMs = 3 * 60_000;

const severities = { open: "actNow", near: "plan", away: "note" } as const;

/** Our own word beside IPP's: jobs wait, and the printer finishes no sheet without saying why. */
const stalledReason = "no-sheet-finished";

/** Whether the printer cannot print. */
export function judgePrinter(scene: Scene): Judged {
  const { state, atMs } = scene;
  const matter = "printerStopped";
  const printer = printerNow(state, atMs);
  if (printer === null || printer.isSourceLost) return { matter, stands: "unseen" };
  const stalledSinceAtMs = scene.shown.printer?.stalledSinceAtMs ?? null;
  if (!printer.isStopped && stalledSinceAtMs === null) return { matter, stands: "clear" };
  const reasons = printer.isStopped ? worstKeywords(printer.reasons) : [stalledReason];
  return {
    ...noFigures,
    matter,
    stands: isAttended(printer, reasons, atMs) ? "lingers" : "holds",
    severity: severities[phaseOf(scene)],
    since: { atMs: (printer.isStopped ? null : stalledSinceAtMs) ?? printer.sinceAtMs, isAtLatest: false },
    reasons: [...reasons],
    queuedJobs: printer.queuedJobs,
    sheetsLeft: scene.shown.media?.sheetsLeft ?? null,
    spareRolls: sparesLeft(scene),
  };
}

function isAttended(printer: PrinterNow, reasons: readonly string[], atMs: number): boolean {
  const isOnPurpose = reasons.length > 0 && reasons.every((reason) => attendedKeywords.has(reason));
  return isOnPurpose && atMs - printer.sinceAtMs < attendedMs;
}
