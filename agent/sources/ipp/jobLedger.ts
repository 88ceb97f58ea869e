import * as z from "zod";
import type { JobSeen } from "./operations.ts";
import { jobCompleted } from "./operations.ts";

/**
 * Which jobs of a queue have been dealt with. Kept on disk, so that a restart of the agent reports no job
 * twice and misses none that finished meanwhile.
 */
export const jobLedger = z.object({
  /** Highest job number seen. */
  maxJobId: z.int(),
  /** Jobs up to there that may still finish. */
  unsettled: z.array(z.int()),
  /** Prints reported lately, so that a history listed anew reports nothing twice. */
  reported: z.array(z.object({ printId: z.string(), jobKey: z.string(), impressions: z.int() })),
  /** How often the queue began to number from the front again. */
  restarts: z.int(),
});
export type JobLedger = z.infer<typeof jobLedger>;

/** CUPS keeps a history of 500 jobs (MaxJobs). */
const mostReported = 500;
/** Job numbers are shared by all queues of a print server: holes are ordinary, and looked for once. */
const mostHoles = 100;

/** The ledger of a queue seen for the first time: what is finished by now is not ours to count. */
export function openLedger(active: readonly number[], finished: readonly number[]): JobLedger {
  const maxJobId = Math.max(0, ...active, ...finished);
  return { maxJobId, unsettled: [...active], reported: [], restarts: 0 };
}

/** The ledger after a look at the whole history: the queue may have forgotten it and begun again at 1. */
export function renumbered(ledger: JobLedger, jobIds: readonly number[]): JobLedger {
  if (Math.max(0, ...jobIds) >= ledger.maxJobId) return ledger;
  return { ...ledger, maxJobId: 0, unsettled: [], restarts: ledger.restarts + 1 };
}

/** The job number from which on the list of finished jobs can hold news, with these jobs still active. */
export function firstUnsettled(ledger: JobLedger, active: readonly JobSeen[]): number {
  const stillOpen = new Set(active.map((job) => job.jobId));
  return Math.min(ledger.maxJobId + 1, ...ledger.unsettled.filter((jobId) => !stillOpen.has(jobId)));
}

/** Names of a job and of the one print it made; a job that is printed again makes another one. */
export type JobNames = { readonly jobKey: string; readonly printId: string };

/** Jobs that made prints, and the ledger once they are reported. `active` must be read before `finished`. */
export function settle(
  ledger: JobLedger,
  active: readonly JobSeen[],
  finished: readonly JobSeen[],
  namesOf: (job: JobSeen) => JobNames,
): { prints: readonly { printId: string; job: JobSeen }[]; next: JobLedger } {
  const done = new Set(finished.map((job) => job.jobId));
  const open = active.map((job) => job.jobId).filter((jobId) => !done.has(jobId));
  const maxJobId = Math.max(ledger.maxJobId, ...done, ...open);
  const known = new Set([...done, ...open]);
  const holes = idsBetween(ledger.maxJobId + 1, maxJobId).filter((jobId) => !known.has(jobId));
  const made = finished
    .filter((job) => job.state === jobCompleted)
    .toSorted((a, b) => (a.completedAtS ?? 0) - (b.completedAtS ?? 0) || a.jobId - b.jobId)
    .map((job) => ({ ...namesOf(job), job, impressions: job.impressions ?? 0 }))
    .filter(({ printId }) => !ledger.reported.some((each) => each.printId === printId));
  const prints = made.map(({ printId, jobKey, job }) => ({
    printId,
    job: withoutReported(ledger, jobKey, job),
  }));
  const now = made.map(({ printId, jobKey, impressions }) => ({ printId, jobKey, impressions }));
  const reported = [...ledger.reported, ...now].slice(-mostReported);
  return { prints, next: { ...ledger, maxJobId, unsettled: [...open, ...holes], reported } };
}

/** A job that is printed again counts its impressions on: those reported before are not of this print. */
function withoutReported(ledger: JobLedger, jobKey: string, job: JobSeen): JobSeen {
  const before = ledger.reported.filter((each) => each.jobKey === jobKey).map((each) => each.impressions);
  if (job.impressions === null || before.length === 0) return job;
  return { ...job, impressions: Math.max(0, job.impressions - Math.max(...before)) };
}

function idsBetween(first: number, last: number): number[] {
  const from = Math.max(first, last - mostHoles);
  return Array.from({ length: Math.max(0, last - from + 1) }, (_, i) => from + i);
}
