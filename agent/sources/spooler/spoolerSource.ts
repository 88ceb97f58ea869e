import type { Emit, Source } from "../../readings/source.ts";
import { shortHash, stateFile } from "../stateFile.ts";
import type { Surroundings } from "../surroundings.ts";
import type { ChildCommand, KeptChild, Trouble } from "./keepChild.ts";
import { keepChild } from "./keepChild.ts";
import { spoolerItems, spoolerPrintItem, spoolerToldNothing } from "./spoolerItems.ts";
import type { OpenJob, SpoolerLedger } from "./spoolerLedger.ts";
import { openSpoolerLedger, settleSpoolerJobs, spoolerLedger } from "./spoolerLedger.ts";
import type { QueueLook, SpoolerLine, WindowsJob } from "./spoolerLine.ts";
import { lookAtQueue, readSpoolerLine } from "./spoolerLine.ts";
import { powerShellCommand } from "./spoolerScript.ts";
import type { SpoolerSourceConfig } from "./spoolerSourceConfig.ts";

/** Looks that wait while the disk is slow; past this the oldest are let go, as if they had not been taken. */
const mostWaiting = 32;

/**
 * A printer of Windows' print spooler: its state and queue as they change, its page counter whenever it moves,
 * and a `print` fact for each job that was seen and finished, exactly once. What comes and goes between two
 * looks is in the counter alone.
 *
 * One PowerShell child does all the asking (`spoolerScript`); `command` stands for it.
 */
export function spoolerSource(
  config: SpoolerSourceConfig,
  { clock, stateFolder }: Surroundings,
  command: ChildCommand = powerShellCommand(config),
): Source {
  const file = stateFile(stateFolder, "spooler", config.queue, spoolerLedger);
  const waiting: (SpoolerLine | Trouble)[] = [];
  let told = spoolerToldNothing;
  let ledger: SpoolerLedger | null = null;
  /** No look at the jobs yet in this run: what has gone since the last run went at an unknown moment. */
  let isFirstLook = true;
  let child: KeptChild | null = null;
  let working: Promise<void> | null = null;

  async function take(next: SpoolerLine | Trouble, emit: Emit): Promise<void> {
    const look = "fault" in next ? next : lookAtQueue(next, config.queue);
    if ("fault" in look) {
      // After an outage everything is told anew.
      told = spoolerToldNothing;
      await emit({ fault: look.fault, detail: `${config.queue}: ${look.detail}` });
    } else await tell(look, emit);
  }

  async function tell(look: QueueLook, emit: Emit): Promise<void> {
    const { wallMs, monoMs } = clock();
    const before = look.jobs && (ledger ??= await begin(look.jobs));
    const settled = before && look.jobs && settleSpoolerJobs(before, look.jobs, printIdOf);
    const news = spoolerItems(told, look, config.pitchesPerPage, monoMs);
    const prints = (settled?.prints ?? []).map((job) =>
      spoolerPrintItem(
        look.printer.Name,
        job,
        config.pitchesPerPage,
        isFirstLook ? sinceSent(job, wallMs) : 0,
      ),
    );
    if (!(await emit({ items: [...prints, ...news.items] }))) return;
    ({ told } = news);
    if (!settled) return;
    ledger = settled.next;
    isFirstLook = false;
    if (JSON.stringify(ledger) !== JSON.stringify(before)) await file.save(ledger);
  }

  async function begin(jobs: readonly WindowsJob[]): Promise<SpoolerLedger> {
    const loaded = await file.load();
    if (loaded) return loaded;
    const opened = openSpoolerLedger(jobs, printIdOf);
    await file.save(opened);
    return opened;
  }

  function printIdOf({ JobId, TimeSubmitted }: WindowsJob): string {
    const sent = TimeSubmitted ?? `seen-${Math.round(clock().wallMs)}`;
    return `${shortHash(config.queue.toLowerCase())}:${JobId}:${sent}`;
  }

  function work(next: SpoolerLine | Trouble, emit: Emit): void {
    waiting.push(next);
    if (waiting.length > mostWaiting) waiting.shift();
    working ??= workThrough(emit).finally(() => (working = null));
  }

  async function workThrough(emit: Emit): Promise<void> {
    for (let next = waiting.shift(); next; next = waiting.shift()) {
      await take(next, emit).catch(async (error: unknown) => {
        const reason = error instanceof Error ? error.message : String(error);
        await emit({ fault: "unreadable", detail: `what was counted cannot be remembered: ${reason}` });
      });
    }
  }

  return {
    name: config.name,
    start(emit) {
      child = keepChild(command, {
        silentMs: config.silentMs,
        restartMs: config.restartMs,
        clock,
        onLine(text) {
          const line = readSpoolerLine(text);
          if (line) work(line, emit);
          return line !== null;
        },
        onTrouble: (trouble) => work(trouble, emit),
      });
    },
    async close() {
      await child?.close();
      await working;
    },
  };
}

/** A job that went while the agent was away is dated by when it was sent. */
function sinceSent({ submittedAtMs }: OpenJob, wallMs: number): number {
  return submittedAtMs === null ? 0 : Math.max(0, wallMs - submittedAtMs);
}
