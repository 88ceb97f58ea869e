import type { StateFile } from "../stateFile.ts";
import { shortHash } from "../stateFile.ts";
import type { IppClient } from "./ippClient.ts";
import type { IppFault } from "./ippFault.ts";
import type { JobLedger, JobNames } from "./jobLedger.ts";
import { firstUnsettled, openLedger, renumbered, settle } from "./jobLedger.ts";
import type { JobSeen } from "./operations.ts";
import { readJobIds, readJobs } from "./operations.ts";

/** Prints that are to be reported; once they are kept, `keep` is called and they are never given again. */
export type Counted = {
  readonly prints: readonly { printId: string; job: JobSeen }[];
  keep(): Promise<void>;
};

/** Counts the jobs of one queue, each once, over restarts of the agent and of the print server. */
export type JobCounter = {
  /** With `isFresh` the whole history is looked at first: after a start, an outage, or lost events. */
  count(isFresh: boolean): Promise<Counted | IppFault>;
};

export function jobCounter(client: IppClient, queueUri: string, file: StateFile<JobLedger>): JobCounter {
  let ledger: JobLedger | null = null;

  async function refresh(): Promise<JobLedger | IppFault> {
    const active = await readJobIds(client, "not-completed");
    if ("fault" in active) return active;
    const finished = await readJobIds(client, "completed");
    if ("fault" in finished) return finished;
    ledger ??= await file.load();
    if (ledger) return renumbered(ledger, [...active.jobIds, ...finished.jobIds]);
    const opened = openLedger(active.jobIds, finished.jobIds);
    await file.save(opened);
    return opened;
  }

  return {
    async count(isFresh) {
      if (isFresh || !ledger) {
        const refreshed = await refresh();
        if ("fault" in refreshed) return refreshed;
        ledger = refreshed;
      }
      const before = ledger;
      // The active ones first: what finishes between the two calls is then in both, not in neither.
      const active = await readJobs(client, "not-completed", 1);
      if ("fault" in active) return active;
      const finished = await readJobs(client, "completed", firstUnsettled(before, active.jobs));
      if ("fault" in finished) return finished;
      const namesOf = (job: JobSeen): JobNames => namesIn(queueUri, job, before.restarts);
      const { prints, next } = settle(before, active.jobs, finished.jobs, namesOf);
      return {
        prints,
        async keep() {
          ledger = next;
          if (JSON.stringify(next) !== JSON.stringify(before)) await file.save(next);
        },
      };
    },
  };
}

/**
 * The same print has the same id whenever and by whomever it is read. A finished job that is sent to the
 * printer again is another print: the moment it was completed tells them apart. A printer that counts its time
 * from when it was switched on repeats numbers and times; there the restarts that were noticed do.
 */
function namesIn(queueUri: string, job: JobSeen, restarts: number): JobNames {
  const isOfUnixTime = isUnixTime(job.createdAtS);
  const parts = [
    shortHash(queueUri),
    job.jobId,
    job.createdAtS ?? "unknown",
    ...(isOfUnixTime ? [] : [restarts]),
  ];
  const jobKey = job.uuid?.slice(0, 100) ?? parts.join(":");
  return { jobKey, printId: isUnixTime(job.completedAtS) ? `${jobKey}:${job.completedAtS}` : jobKey };
}

/** Seconds since 1970 are past this since 2001; no printer is on for thirty years. */
function isUnixTime(seconds: number | null): boolean {
  return seconds !== null && seconds > 1_000_000_000;
}
