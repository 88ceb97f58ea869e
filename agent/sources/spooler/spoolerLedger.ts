import * as z from "zod";
import { jobBits } from "./printerCondition.ts";
import type { WindowsJob } from "./spoolerLine.ts";

/**
 * Which jobs of a queue are under way and which are dealt with. Kept on disk, so that a restart of the agent
 * counts no job twice, and counts those that finished meanwhile.
 */
export const spoolerLedger = z.object({
  open: z.array(
    z.object({
      jobKey: z.string(),
      printId: z.string(),
      /** The most it ever said to have; Windows counts up while it takes a job in. */
      pages: z.int(),
      pagesPrinted: z.int(),
      statusMask: z.int(),
      submittedAtMs: z.number().nullable(),
    }),
  ),
  /** Keys of jobs dealt with, the latest last. */
  settled: z.array(z.string()),
});
export type SpoolerLedger = z.infer<typeof spoolerLedger>;
export type OpenJob = SpoolerLedger["open"][number];

/** Jobs may stay listed after they are printed, where Windows is told to keep them: more than an evening's. */
const mostSettled = 1_000;

const trouble =
  jobBits.paused |
  jobBits.error |
  jobBits.offline |
  jobBits.paperOut |
  jobBits.blocked |
  jobBits.userIntervention;
const cancelled = jobBits.deleting | jobBits.deleted;

/** The ledger of a queue seen for the first time: what is printed by now is not ours to count. */
export function openSpoolerLedger(jobs: readonly WindowsJob[], printIdOf: PrintIdOf): SpoolerLedger {
  const isPrintedBefore = (job: WindowsJob): boolean => has(job.StatusMask ?? 0, jobBits.printed);
  return {
    open: jobs.filter((job) => !isPrintedBefore(job)).map((job) => follow(undefined, job, printIdOf)),
    settled: jobs.filter(isPrintedBefore).map(keyOf),
  };
}

/** Names the print that a job makes, the same at every reading. */
export type PrintIdOf = (job: WindowsJob) => string;

/**
 * Jobs that have made prints since the last look, and the ledger once they are told. A job is printed when it
 * says so, or when it has gone and was well when last seen. One that was being deleted then is printed only
 * if all its pages had been: Windows also deletes what it has finished.
 *
 * **Source:** the names of the bits, and from memory how spoolers behave; not run on Windows.
 */
export function settleSpoolerJobs(
  ledger: SpoolerLedger,
  jobs: readonly WindowsJob[],
  printIdOf: PrintIdOf,
): { prints: readonly OpenJob[]; next: SpoolerLedger } {
  const listed = new Set(jobs.map(keyOf));
  const settledBefore = new Set(ledger.settled);
  const followed = jobs
    .filter((job) => !settledBefore.has(keyOf(job)))
    .map((job) =>
      follow(
        ledger.open.find(({ jobKey }) => jobKey === keyOf(job)),
        job,
        printIdOf,
      ),
    );
  const gone = ledger.open.filter(({ jobKey }) => !listed.has(jobKey));
  const done = followed.filter(({ statusMask }) => has(statusMask, jobBits.printed));
  const settled = [...ledger.settled, ...[...gone, ...done].map(({ jobKey }) => jobKey)]
    .filter((jobKey) => listed.has(jobKey) || !isTimeless(jobKey))
    .slice(-mostSettled);
  return {
    prints: [...gone.filter(isPrintedWhenGone), ...done],
    next: { open: followed.filter((job) => !done.includes(job)), settled },
  };
}

function isPrintedWhenGone({ statusMask, pages, pagesPrinted }: OpenJob): boolean {
  if (has(statusMask, cancelled)) return pagesPrinted > 0 && pagesPrinted >= pages;
  return !has(statusMask, trouble);
}

function follow(before: OpenJob | undefined, job: WindowsJob, printIdOf: PrintIdOf): OpenJob {
  return {
    jobKey: keyOf(job),
    printId: before?.printId ?? printIdOf(job),
    pages: Math.max(before?.pages ?? 0, job.TotalPages ?? 0, job.PagesPrinted ?? 0),
    pagesPrinted: Math.max(before?.pagesPrinted ?? 0, job.PagesPrinted ?? 0),
    statusMask: job.StatusMask ?? 0,
    submittedAtMs: job.TimeSubmitted,
  };
}

/** Job numbers begin again at 1 with the spooler; with the moment they were sent they are told apart. */
function keyOf({ JobId, TimeSubmitted }: WindowsJob): string {
  return `${JobId}:${TimeSubmitted ?? "unknown"}`;
}

/** A number alone will be used again: such a key is forgotten when its job has gone. */
function isTimeless(jobKey: string): boolean {
  return jobKey.endsWith(":unknown");
}

function has(mask: number, bits: number): boolean {
  return (mask & bits) !== 0;
}
